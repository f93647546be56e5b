#include "daemon/board/routes.hpp"

#include <algorithm>
#include <string_view>

#include "daemon/board/documents/explanation_json.hpp"
#include "daemon/board/documents/field_record_json.hpp"
#include "daemon/board/documents/forecast_json.hpp"
#include "daemon/board/documents/health.hpp"
#include "daemon/board/documents/metrics_text.hpp"
#include "daemon/board/documents/topic_json.hpp"
#include "daemon/board/http/http_target.hpp"
#include "daemon/board/http/write_guard.hpp"
#include "daemon/board/pages/alerts_page.hpp"
#include "daemon/board/pages/board_assets.hpp"
#include "daemon/board/pages/board_page.hpp"
#include "daemon/board/pages/explain_page.hpp"
#include "daemon/board/pages/field_page.hpp"
#include "daemon/board/pages/page_frame.hpp"
#include "daemon/board/pages/plan_page.hpp"
#include "daemon/board/pages/seasons_page.hpp"
#include "daemon/text/date_text.hpp"

namespace gley::daemon {
namespace {

constexpr std::string_view html_type = "text/html; charset=utf-8";
constexpr std::string_view text_type = "text/plain; charset=utf-8";
constexpr std::string_view json_type = "application/json";
constexpr std::string_view geojson_type = "application/geo+json";           // RFC 7946
constexpr std::string_view calendar_type = "text/calendar; charset=utf-8";  // RFC 5545
constexpr std::string_view csv_type = "text/csv; charset=utf-8; header=present";

/// All that a page is made from.
struct Ask {
  const Request& request;
  const BoardSnapshot& board;
  const PageSources& sources;
  std::string_view id;  ///< what stands for the * of the route
};

Response with(std::string_view content_type, std::string body, int status = 200) {
  return {.status = status, .content_type = std::string(content_type), .body = std::move(body)};
}

/// "../" for each folder of the path: links stay right behind a proxy that serves us under a name.
std::string way_to_root(std::string_view path) {
  std::string way;
  for (auto slashes = std::count(path.begin(), path.end(), '/'); slashes > 1; --slashes) {
    way += "../";
  }
  return way;
}

Response not_found(const Ask& ask) {
  return with(html_type,
              message_page({.title = "Nothing here",
                            .sentence = "There is no page of this address, or no such field.",
                            .root = way_to_root(ask.request.path)}),
              404);
}

/// A value of the query; empty without one.
std::string asked(const Ask& ask, const char* key) {
  const auto found = ask.request.query.find(key);
  return found == ask.request.query.end() ? std::string() : found->second;
}

const FieldView* find_field(const Ask& ask) {
  return with_id(ask.board.fields, ask.id);
}

Response show_board(const Ask& ask) {
  const bool by_name = asked(ask, "by") == "name";
  return with(html_type,
              board_page(ask.board, by_name ? BoardOrder::by_name : BoardOrder::by_work));
}

/// A fortnight back, and what lies ahead.
FieldDetails details(const Ask& ask, const FieldView& field) {
  FieldDetails out;
  if (!field.known) return out;
  constexpr std::chrono::days fortnight{14};
  DayRange range;
  if (const auto today = date_from(field.date)) range.from = *today - fortnight;
  if (ask.sources.record) out.record = ask.sources.record(field.id, range);
  if (ask.sources.ahead) out.ahead = ask.sources.ahead(field.id);
  if (const auto plan = ask.sources.plan ? ask.sources.plan() : nullptr) {
    if (const PlannedField* outline = with_id(plan->fields, field.id))
      out.buffer_ha = outline->buffer_ha;
  }
  if (ask.sources.changes) out.changes = ask.sources.changes(field.id);
  return out;
}

Response show_field(const Ask& ask) {
  const FieldView* field = find_field(ask);
  return field ? with(html_type, field_page(*field, ask.board, details(ask, *field)))
               : not_found(ask);
}

Response show_seasons(const Ask& ask) {
  const FieldView* field = find_field(ask);
  if (!field || !ask.sources.seasons) return not_found(ask);
  return with(html_type, seasons_page(*field, ask.board, ask.sources.seasons(field->id)));
}

Response show_explanation(const Ask& ask) {
  const FieldView* field = find_field(ask);
  if (!field || !ask.sources.explain) return not_found(ask);
  const auto date = read_one_day(ask.request.query);
  const auto explained = date ? ask.sources.explain(field->id, *date)
                              : tl::expected<Explanation, std::string>(tl::unexpect, date.error());
  const int status = explained ? 200 : date ? 404 : 400;
  return with(html_type, explain_page(*field, ask.board, explained), status);
}

Response show_plan(const Ask& ask) {
  const auto plan = ask.sources.plan ? ask.sources.plan() : nullptr;
  if (!plan) return not_found(ask);
  return with(html_type, plan_page(ask.board, *plan, asked(ask, "machine")));
}

Response show_alerts(const Ask& ask) {
  return with(html_type, alerts_page(ask.board));
}

Response give_board(const Ask& ask) {
  return with(json_type, board_json(ask.board));
}

Response give_forecast(const Ask& ask) {
  return with(json_type, forecast_json(ask.board));
}

Response give_alerts(const Ask& ask) {
  return with(json_type, alerts_json(ask.board));
}

Response no_such_field() {
  return json_refusal(404, "no such field");
}

Response give_field(const Ask& ask) {
  const FieldView* field = find_field(ask);
  if (!field) return no_such_field();
  return with(json_type, field_json(*field, ask.board.time));
}

Response give_days(const Ask& ask) {
  const auto range = read_day_range(ask.request.query);
  if (!range) return with(text_type, range.error() + '\n', 400);
  auto csv = find_field(ask) ? ask.sources.days(std::string(ask.id), *range) : std::nullopt;
  if (!csv) return with(text_type, "There is no such field.\n", 404);
  return with(csv_type, *std::move(csv));
}

Response give_explanation(const Ask& ask) {
  const auto date = read_one_day(ask.request.query);
  if (!date) return json_refusal(400, date.error());
  if (!find_field(ask) || !ask.sources.explain) return no_such_field();
  const auto explanation = ask.sources.explain(std::string(ask.id), *date);
  if (!explanation) return json_refusal(404, explanation.error());
  return with(json_type, explanation_json(*explanation));
}

Response give_record(const Ask& ask) {
  auto range = read_day_range(ask.request.query);
  if (!range) return json_refusal(400, range.error());
  if (!find_field(ask) || !ask.sources.record) return no_such_field();
  return with(json_type, record_json(ask.sources.record(std::string(ask.id), *range)));
}

Response give_ahead(const Ask& ask) {
  if (!find_field(ask) || !ask.sources.ahead) return no_such_field();
  return with(json_type, ahead_json(ask.sources.ahead(std::string(ask.id))));
}

Response give_seasons(const Ask& ask) {
  if (!find_field(ask) || !ask.sources.seasons) return no_such_field();
  return with(json_type, seasons_json(ask.sources.seasons(std::string(ask.id))));
}

Response give_seasons_csv(const Ask& ask) {
  if (!find_field(ask) || !ask.sources.seasons)
    return with(text_type, "There is no such field.\n", 404);
  return with(csv_type, seasons_csv(ask.sources.seasons(std::string(ask.id))));
}

Response give_windows(const Ask& ask) {
  if (!ask.sources.windows) return not_found(ask);
  return with(calendar_type, windows_calendar(ask.sources.windows()));
}

Response give_boundaries(const Ask& ask) {
  if (!ask.sources.boundaries) return not_found(ask);
  return with(geojson_type, ask.sources.boundaries());
}

Response open_events(const Ask&) {
  Response response = with("text/event-stream", "");
  response.event_stream = true;
  return response;
}

Workings workings_of(const Ask& ask) {
  if (ask.sources.workings) return ask.sources.workings();
  Workings workings;
  workings.now = ask.board.time;
  return workings;
}

Response give_metrics(const Ask& ask) {
  const MetricsFormat format = metrics_format(ask.request.accept);
  return with(content_type(format), metrics_text(ask.board, workings_of(ask), format));
}

Response give_health(const Ask& ask) {
  const Workings workings = workings_of(ask);
  const Health health = health_of(ask.board, workings);
  return with(json_type, health_json(health, workings), health.ill.empty() ? 200 : 503);
}

Response give_asset(const Ask& ask) {
  const std::string_view name = std::string_view(ask.request.path).substr(1);
  const BoardAsset* asset = find_asset(name);
  if (asset == nullptr) return not_found(ask);
  Response response = with(asset->content_type, std::string(embedded_asset(asset->file)));
  if (asked(ask, "v") == asset_version(*asset)) {
    // The address changes with the text, so what stands under it never does.
    response.headers.emplace_back("Cache-Control", "public, max-age=31536000, immutable");
  }
  return response;
}

struct Route {
  std::string_view pattern;  ///< a * stands for one segment, an id
  Response (*page)(const Ask&);
};

constexpr Route routes[] = {
    {"/", show_board},
    {"/field/*", show_field},
    {"/plan", show_plan},
    {"/alerts", show_alerts},
    {"/field/*/seasons", show_seasons},
    {"/field/*/explain", show_explanation},
    {"/api/board", give_board},
    {"/api/forecast", give_forecast},
    {"/api/alerts", give_alerts},
    {"/api/boundaries", give_boundaries},
    {"/api/field/*", give_field},
    {"/api/field/*/days.csv", give_days},
    {"/api/field/*/explain", give_explanation},
    {"/api/field/*/record", give_record},
    {"/api/field/*/ahead", give_ahead},
    {"/api/field/*/seasons", give_seasons},
    {"/api/field/*/seasons.csv", give_seasons_csv},
    {"/windows.ics", give_windows},
    {"/events", open_events},
    {"/metrics", give_metrics},
    {"/healthz", give_health},
    {"/*", give_asset},
};

Response wrong_method() {
  Response response = with(text_type, "This address can only be read: GET or HEAD.\n", 405);
  response.headers.emplace_back("Allow", "GET, HEAD");
  return response;
}

}  // namespace

Response respond(const Request& request, const BoardSnapshot& board, const PageSources& sources) {
  Ask ask{.request = request, .board = board, .sources = sources, .id = {}};
  for (const Route& route : routes) {
    const auto id = match(route.pattern, request.path);
    if (!id) continue;
    if (is_write(request)) return wrong_method();
    ask.id = *id;
    return route.page(ask);
  }
  return not_found(ask);
}

}  // namespace gley::daemon
