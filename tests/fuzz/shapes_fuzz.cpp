#include <cmath>
#include <cstdint>

#include "daemon/farm/geojson.hpp"
#include "tests/fuzz/must.hpp"

using namespace gley::daemon;
using namespace gley::tests;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string text(reinterpret_cast<const char*>(data), size);
  const auto shape = field_shape_of(text);
  if (!shape) must_be_a_line(shape.error());
  const auto lines = lines_of(text);
  if (!lines) must_be_a_line(lines.error());
  return 0;
}
