#pragma once
#include <string>
#include <string_view>

#include "daemon/board/documents/metrics_text.hpp"
#include "daemon/board/snapshot/histogram.hpp"

namespace gley::daemon {

/// Writes families of samples; the two formats differ in how a counter and an info are declared.
class MetricsWriter {
 public:
  explicit MetricsWriter(MetricsFormat format) : open_(format == MetricsFormat::open_metrics_1_0) {}

  /// A value makes the family's one sample; without one the samples, with labels, follow.
  void gauge(std::string_view name, std::string_view help, const std::string& value = {});
  /// name: without _total or _info, which the samples take on.
  void counter(const std::string& name, std::string_view help);
  void counter(const std::string& name, std::string_view help, std::uint64_t value);
  void info(const std::string& name, std::string_view help);

  void sample(std::string_view label, std::string_view label_value, const std::string& value);

  /// A family of its own, whole.
  void histogram(const std::string& name, std::string_view help, const Histogram& values);

  [[nodiscard]] std::string text() &&;

 private:
  void declare(std::string_view family, std::string_view type, std::string_view help);

  bool open_;
  std::string sample_name_;
  std::string out_;
};

}  // namespace gley::daemon
