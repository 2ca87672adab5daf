#include "logs/log_cut_times.hpp"

#include <algorithm>
#include <utility>

namespace hailwright::detail {

TimeCutter::TimeCutter(std::vector<LogSpan> spans, const StretchRules& rules, std::size_t kept_rows)
    : longest_gap_s_(rules.longest_gap.si()), out_(rules, kept_rows) {
  for (LogSpan& span : spans)
    spans_.push_back({std::move(span), {}, {}});
}

void TimeCutter::take(const LogBlock& block) {
  if (block.rows() == 0) return;
  if (!first_us_) first_us_ = block.time_us.front();
  last_us_ = block.time_us.back();
  for (Open& open : spans_)
    if (!open.closed) take(open, block);
}

void TimeCutter::take(Open& open, const LogBlock& block) const {
  const std::vector<std::int64_t>& times = block.time_us;
  if (times.back() >= open.span.from_us) {
    const auto begin = std::lower_bound(times.begin(), times.end(), open.span.from_us);
    const auto end = std::upper_bound(begin, times.end(), open.span.to_us);
    if (begin < end) {
      if (!open.stretch) open.stretch.emplace(out_.open());
      open.stretch->take(block, static_cast<std::size_t>(begin - times.begin()),
                         static_cast<std::size_t>(end - times.begin()));
    }
  }
  if (open.stretch && times.back() > open.span.to_us) {
    open.closed = open.stretch->close(open.span.name);
    open.stretch.reset();
  }
}

void TimeCutter::remark_beyond(const LogSpan& span, CutRemarks& remarks) const {
  const double before_s = static_cast<double>(*first_us_ - span.from_us) * 1e-6;
  const double after_s = static_cast<double>(span.to_us - last_us_) * 1e-6;
  if (before_s > longest_gap_s_ || after_s > longest_gap_s_)
    remarks.beyond.push_back({span, std::max(before_s, 0.0), std::max(after_s, 0.0)});
}

CutResult TimeCutter::finish() {
  CutResult result;
  for (Open& open : spans_) {
    if (open.stretch) open.closed = open.stretch->close(open.span.name);
    if (!open.closed) {
      result.remarks.without_rows.push_back(open.span);
      continue;
    }
    remark_beyond(open.span, result.remarks);
    out_.add(std::move(*open.closed));
  }
  result.stretches = out_.release();
  return result;
}

}  // namespace hailwright::detail
