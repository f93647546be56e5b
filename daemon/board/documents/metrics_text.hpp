#pragma once
#include <string>
#include <string_view>

#include "daemon/board/snapshot/snapshot.hpp"
#include "daemon/board/snapshot/workings.hpp"

namespace gley::daemon {

enum class MetricsFormat { text_0_0_4, open_metrics_1_0 };

/// OpenMetrics where the Accept header ranks it at least as high as plain text.
[[nodiscard]] MetricsFormat metrics_format(std::string_view accept);

[[nodiscard]] std::string_view content_type(MetricsFormat format);

/// How the daemon and its stations are doing, for a collector of metrics. Base units in the names;
/// a label's value may be any text and is escaped.
[[nodiscard]] std::string metrics_text(const BoardSnapshot& board, const Workings& workings,
                                       MetricsFormat format);

}  // namespace gley::daemon
