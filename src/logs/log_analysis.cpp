#include "hailwright/logs/log_analysis.hpp"

#include <cmath>
#include <limits>
#include <utility>

#include "hailwright/logs/stretch_meter.hpp"
#include "logs/energy_counter.hpp"
#include "logs/log_analysis_notes.hpp"
#include "logs/log_cutter.hpp"
#include "logs/log_trace.hpp"
#include "logs/usual_step.hpp"

namespace hailwright {

namespace detail {

/// Looks for the first falls of the energy counter: the meter counts them, a message needs a line.
class FallFinder {
public:
  explicit FallFinder(std::optional<Energy> wraps_at) {
    if (wraps_at) wraps_at_j_ = wraps_at->si();
  }
  void take(const LogBlock& block) {
    const std::vector<double>& energy = block.column(LogRole::energy);
    for (std::size_t row = 0; row < energy.size(); ++row) {
      if (std::isnan(energy[row])) continue;
      if (energy[row] < last_j_) note({detail::place_of(block, row), last_j_, energy[row]});
      last_j_ = energy[row];
    }
  }
  [[nodiscard]] const detail::CounterFalls& falls() const { return falls_; }

private:
  void note(const detail::CounterFall& fall) {
    const detail::CounterStep kind = detail::counter_step(fall.from_j, fall.to_j, wraps_at_j_);
    std::optional<detail::CounterFall>& first = kind == detail::CounterStep::wrap    ? falls_.wrap
                                                : kind == detail::CounterStep::reset ? falls_.reset
                                                                                     : falls_.back;
    if (!first) first = fall;
  }

  std::optional<double> wraps_at_j_;
  double last_j_ = -std::numeric_limits<double>::infinity();
  detail::CounterFalls falls_;
};

}  // namespace detail

class LogAnalysis::Work {
public:
  explicit Work(const LogQuestion& question)
      : question_(question),
        whole_(question.rules, question.cut.kind == LogCut::Kind::whole ? question.kept_rows : 0),
        cutter_(question), falls_(question.rules.counter_wraps_at) {}

  void take(const LogBlock& block) {
    usual_step_.take(block.time_us);
    whole_.take(block, 0, block.rows());
    cutter_.take(block);
    trace_.take(block);
    falls_.take(block);
  }

  LogFindings finish(Diagnostics& notes) {
    LogFindings findings;
    bool complete = true;
    findings.whole = whole_.finish(complete);
    findings.trace = trace_.finish();
    findings.usual_step_s = usual_step_.seconds();
    detail::CutResult cut = cutter_.finish();
    detail::warn_of({question_, findings.whole, cut, complete, falls_.falls()}, notes);
    findings.stretches.reserve(cut.stretches.size());
    for (detail::CutStretch& one : cut.stretches)
      findings.stretches.push_back(std::move(one.stretch));
    return findings;
  }

private:
  LogQuestion question_;
  StretchMeter whole_;
  detail::LogCutter cutter_;
  detail::TraceDrawer trace_;
  detail::UsualStep usual_step_;
  detail::FallFinder falls_;
};

LogAnalysis::LogAnalysis(const LogQuestion& question) : work_(std::make_unique<Work>(question)) {}
LogAnalysis::~LogAnalysis() = default;

void LogAnalysis::take(const LogBlock& block) {
  work_->take(block);
}

LogFindings LogAnalysis::finish(Diagnostics& notes) {
  return work_->finish(notes);
}

}  // namespace hailwright
