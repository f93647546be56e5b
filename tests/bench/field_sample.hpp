#pragma once

namespace gley::bench {

/// Writes, as JSON, one block of each class: its numbers, the water of its fields before and after
/// each of some days, and the days' weather and fluxes. False if the file cannot be written.
[[nodiscard]] bool write_sample(const char* path);

}  // namespace gley::bench
