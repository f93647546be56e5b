#include "daemon/board/documents/metrics_writer.hpp"

#include "daemon/board/words/figure_text.hpp"
#include "daemon/text/utf8.hpp"

namespace gley::daemon {

namespace {

/// Text format 0.0.4 and OpenMetrics 1.0 escape label values alike.
std::string label_text(std::string_view value) {
  std::string out;
  for (const char character : printable(value)) {
    if (character == '\\' || character == '"') out += '\\';
    out += character;
  }
  return out;
}

/// OpenMetrics wants a bound with its point: "1.0".
std::string bound_text(double bound) {
  std::string text = decimal_text(bound);
  if (text.find_first_of(".e") == std::string::npos) text += ".0";
  return text;
}

}  // namespace

void MetricsWriter::gauge(std::string_view name, std::string_view help, const std::string& value) {
  sample_name_ = name;
  declare(name, "gauge", help);
  if (!value.empty()) out_ += sample_name_ + ' ' + value + '\n';
}

void MetricsWriter::counter(const std::string& name, std::string_view help) {
  sample_name_ = name + "_total";
  declare(open_ ? name : sample_name_, "counter", help);
}

void MetricsWriter::counter(const std::string& name, std::string_view help, std::uint64_t value) {
  counter(name, help);
  out_ += sample_name_ + ' ' + std::to_string(value) + '\n';
}

void MetricsWriter::info(const std::string& name, std::string_view help) {
  sample_name_ = name + "_info";
  declare(open_ ? name : sample_name_, open_ ? "info" : "gauge", help);
}

void MetricsWriter::sample(std::string_view label, std::string_view label_value,
                           const std::string& value) {
  out_ += sample_name_ + '{' + std::string(label) + "=\"" + label_text(label_value) + "\"} " +
          value + '\n';
}

void MetricsWriter::histogram(const std::string& name, std::string_view help,
                              const Histogram& values) {
  declare(name, "histogram", help);
  const auto& bounds = values.bounds_s();
  sample_name_ = name + "_bucket";
  for (std::size_t i = 0; i < bounds.size(); ++i)
    sample("le", bound_text(bounds[i]), std::to_string(values.up_to(i)));
  const std::string all = std::to_string(values.up_to(bounds.size()));
  sample("le", "+Inf", all);
  out_ += name + "_sum " + decimal_text(values.sum_s()) + '\n';
  out_ += name + "_count " + all + '\n';
}

std::string MetricsWriter::text() && {
  if (open_) out_ += "# EOF\n";
  return std::move(out_);
}

void MetricsWriter::declare(std::string_view family, std::string_view type, std::string_view help) {
  out_ += "# HELP " + std::string(family) + ' ' + std::string(help) + '\n';
  out_ += "# TYPE " + std::string(family) + ' ' + std::string(type) + '\n';
}

}  // namespace gley::daemon
