#pragma once
#include "daemon/store/inbox.hpp"
#include "daemon/store/schema.hpp"
#include "tests/scratch_directory.hpp"

namespace gley::daemon {

/// A new store in a directory of its own, and what writes readings into it.
struct FarmStore {
  tests::ScratchDirectory directory;
  Database database = open_store(directory / "farm.db", Durability::process);
  Inbox inbox{directory / "farm.db", Durability::process};

  Inbox::Stored put(const Reading& reading, Instant received,
                    ReadingStatus status = ReadingStatus::used) {
    return inbox.store({{{reading, status}}, {}}, received);
  }
};

inline Reading rain_reading(const std::string& station, Instant time, double value,
                            ReadingForm form = ReadingForm::interval) {
  return {.station = station,
          .quantity = Quantity::rain,
          .form = form,
          .source = "weather/" + station + "/rain",
          .time = time,
          .value = value};
}

inline Reading air_reading(const std::string& station, Instant time, double temperature_c) {
  return {.station = station,
          .quantity = Quantity::temperature,
          .form = ReadingForm::instant,
          .source = "weather/" + station + "/air",
          .time = time,
          .value = temperature_c};
}

}  // namespace gley::daemon
