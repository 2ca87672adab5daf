#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "logs/log_cut_stretch.hpp"

namespace hailwright::detail {

/// Cuts stretches out of a log by stated times. Both ends belong to a span, and spans may overlap.
class TimeCutter {
public:
  TimeCutter(std::vector<LogSpan> spans, const StretchRules& rules, std::size_t kept_rows);
  void take(const LogBlock& block);
  /// The stretches in the order of the spans; one without rows is only remarked on.
  CutResult finish();

private:
  struct Open {
    LogSpan span;
    std::optional<OpenStretch> stretch;  ///< while rows may come
    std::optional<CutStretch> closed;
  };
  void take(Open& open, const LogBlock& block) const;
  void remark_beyond(const LogSpan& span, CutRemarks& remarks) const;

  double longest_gap_s_;
  CutStretches out_;
  std::vector<Open> spans_;
  std::optional<std::int64_t> first_us_;
  std::int64_t last_us_ = 0;
};

}  // namespace hailwright::detail
