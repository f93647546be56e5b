#include "daemon/board/pages/field_row.hpp"

#include "daemon/board/pages/page_frame.hpp"
#include "daemon/board/pages/signs.hpp"
#include "daemon/board/words/plain_words.hpp"

namespace gley::daemon {
namespace {

/// What the row's numbers rest on, and how old that is.
Html basis(const FieldView& field, const BoardSnapshot& board, const Moment& moment) {
  Html out;
  const StationView* station = with_id(board.stations, field.station);
  if (station && station->last_heard) {
    out.text(station->id).markup(station->silent ? Markup(" silent since ") : Markup(" "));
    out.part(time_with_age(*station->last_heard, moment.now, moment.clock));
  }
  const std::string flags = row_flags_text(field);
  if (!out.empty() && !flags.empty()) out.markup("; ");
  return out.text(flags);
}

Html what(const FieldView& field, const BoardSnapshot& board, const Moment& moment) {
  Html out;
  out.markup("<div class=\"what\"><h3><a href=\"field/").url(field.id).markup("\">");
  out.text(field.name).markup("</a></h3><p><b>").text(wetness_text(field)).markup("</b>");
  if (const std::string water = water_text(field); !water.empty()) {
    out.markup("<span>, ").text(water).markup("</span>");
  }
  return out.markup("</p><p class=\"aside\">")
      .part(basis(field, board, moment))
      .markup("</p></div>\n");
}

Html job(const MachineView& machine, const Moment& moment) {
  Html out;
  const JobWords words = job_words(machine, moment);
  out.markup("<div class=\"job\">").part(wheel(machine.verdict)).markup("<p><span class=\"who\">");
  out.text(machine.name)
      .markup(" <b>")
      .text(machine.verdict)
      .markup("</b></span> <b class=\"when\">");
  out.text(words.when).markup("</b>");
  if (!words.chance.empty()) {
    out.markup(" <span class=\"chance\">").text(words.chance).markup("</span>");
  }
  return out.markup("</p></div>\n");
}

Html signs(const FieldView& field, const MachineView* own) {
  Html out;
  out.markup("<ul class=\"signs\">");
  for (const MachineView& machine : field.machines) {
    out.part(machine_item(machine, &machine == own ? Markup("<li class=\"own\">") : "<li>"));
  }
  for (const SpreadingView& material : field.spreading) {
    out.part(spreading_item(material));
  }
  return out.markup("</ul>\n");
}

}  // namespace

Html field_row(const FieldView& field, const BoardSnapshot& board, const Moment& moment) {
  Html out;
  const MachineView* own = sign_machine_of(field);
  out.markup("<li class=\"row\">").part(soil_column(field)).part(what(field, board, moment));
  if (own) out.part(job(*own, moment));
  if (!field.machines.empty() || !field.spreading.empty()) out.part(signs(field, own));
  return out.markup("</li>\n");
}

}  // namespace gley::daemon
