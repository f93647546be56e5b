#include "daemon/store/forecast_store.hpp"

namespace gley::daemon {
namespace {

StoredForecast forecast_of(const Row& row) {
  return {.id = row.integer(0),
          .topic = row.text(1),
          .payload = row.text(2),
          .received = row.instant(3)};
}

}  // namespace

ForecastStore::ForecastStore(Database& database)
    : newest_(database.prepare(
          "SELECT id, topic, payload, received_ms FROM forecast ORDER BY id DESC LIMIT 1")),
      after_(database.prepare(
          "SELECT id, topic, payload, received_ms FROM forecast WHERE id > ? ORDER BY id")),
      forget_(database.prepare("DELETE FROM forecast WHERE received_ms < ?"
                               " AND id < (SELECT max(id) FROM forecast)")) {}

std::optional<StoredForecast> ForecastStore::newest() {
  std::optional<StoredForecast> forecast;
  newest_.visit([&](const Row& row) { forecast = forecast_of(row); });
  return forecast;
}

std::vector<StoredForecast> ForecastStore::after(std::int64_t id) {
  std::vector<StoredForecast> forecasts;
  after_.visit([&](const Row& row) { forecasts.push_back(forecast_of(row)); }, id);
  return forecasts;
}

void ForecastStore::forget_before(Instant moment) {
  forget_.run(moment);
}

}  // namespace gley::daemon
