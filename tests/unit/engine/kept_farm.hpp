#pragma once
#include <catch2/catch.hpp>

#include "daemon/engine/fields/day_keeper.hpp"
#include "tests/unit/store/farm_store.hpp"

namespace gley::daemon {

/// A farm of these stations and no field yet, whose days are those of UTC.
inline FarmConfig farm_of_stations(const std::vector<std::string>& ids) {
  FarmConfig farm;
  farm.id = "alder";
  farm.latitude = 53.4;
  farm.time_zone = "UTC";
  for (const std::string& id : ids) farm.stations.emplace_back().id = id;
  return farm;
}

/// Grass on clay loam; stations in order of trust.
inline FieldConfig& add_field(FarmConfig& farm, const std::string& id,
                              std::vector<std::string> stations) {
  FieldConfig& field = farm.fields.emplace_back();
  field.id = id;
  field.stations = std::move(stations);
  field.soil = SoilByClass{"clay loam"};
  field.crop = std::string("grass");
  return field;
}

/// The field 'top' and its one station, 'yard'.
inline FarmConfig yard_farm() {
  FarmConfig farm = farm_of_stations({"yard"});
  add_field(farm, "top", {"yard"});
  return farm;
}

/// A store and what a keeper makes of it.
struct KeptFarm {
  explicit KeptFarm(FarmConfig farm) : config(std::move(farm)) {}

  FarmStore store;
  FarmConfig config;
  FieldBook book{config};
  DayKeeper keeper{config, store.database, book};

  /// Rain of each day up to `last`, -1 where none is known, as kept; a keeper that starts now must
  /// make the same of the store.
  [[nodiscard]] std::vector<double> rain_by_day(std::chrono::sys_days last, std::size_t field = 0) {
    keeper.catch_up();
    const std::vector<double> kept = rain_of(book, last, field);
    FieldBook fresh_book(config);
    const DayKeeper fresh(config, store.database, fresh_book);
    CHECK(kept == rain_of(fresh_book, last, field));
    return kept;
  }

  static std::vector<double> rain_of(FieldBook& book, std::chrono::sys_days last,
                                     std::size_t field = 0) {
    book.close(last);
    std::vector<double> amounts;
    for (const model::StationDay& day : book.weather(field).days())
      amounts.push_back(day.weather.rain_mm.value_or(-1.0));
    return amounts;
  }
};

}  // namespace gley::daemon
