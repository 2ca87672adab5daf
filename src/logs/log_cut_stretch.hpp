#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <utility>
#include <vector>

#include "hailwright/logs/log_analysis.hpp"
#include "hailwright/logs/stretch_meter.hpp"

namespace hailwright::detail {

/// So many stretches are cut out of a log at most [ours]: a column of measurements taken for one of
/// markers would make one of every row.
inline constexpr std::size_t most_stretches = 4096;

/// A row's place in the log.
struct LogPlace {
  std::size_t file = 0;
  std::int64_t line = 0;
};

LogPlace place_of(const LogBlock& block, std::size_t row);

/// A stretch that was cut out, and where it begins.
struct CutStretch {
  LogStretch stretch;
  LogPlace place;
  bool complete = true;  ///< all its rows that were to be kept are
};

/// A stretch whose rows still come in.
class OpenStretch {
public:
  OpenStretch(const StretchRules& rules, std::size_t most_kept) : meter_(rules, most_kept) {}
  /// Rows `begin` to `end`.
  void take(const LogBlock& block, std::size_t begin, std::size_t end);
  [[nodiscard]] bool empty() const { return rows_ == 0; }
  [[nodiscard]] LogPlace place() const { return place_; }
  CutStretch close(std::string name);

private:
  StretchMeter meter_;
  LogPlace place_;
  std::size_t rows_ = 0;
};

/// The stretches of a log that are cut out, one after another, and the rows that may still be kept.
class CutStretches {
public:
  CutStretches(const StretchRules& rules, std::size_t kept_rows)
      : rules_(rules), asked_to_keep_(kept_rows > 0), left_to_keep_(kept_rows) {}
  [[nodiscard]] OpenStretch open() const { return {rules_, left_to_keep_}; }
  /// Takes up a closed stretch; rows beyond those that may be kept are let go.
  void add(CutStretch cut);
  [[nodiscard]] bool full() const { return done_.size() >= most_stretches; }
  [[nodiscard]] std::size_t size() const { return done_.size(); }
  std::vector<CutStretch> release() { return std::move(done_); }

private:
  StretchRules rules_;
  bool asked_to_keep_;
  std::size_t left_to_keep_;
  std::vector<CutStretch> done_;
};

/// What was met while cutting that is to be told.
struct CutRemarks {
  /// A marker that came back after another.
  struct Return {
    std::string text, name;  ///< as it stands in the file; what its stretch is called
    LogPlace place;
  };
  std::vector<Return> returns;
  std::vector<LogSpan> without_rows;
  /// A span that reaches further beyond the log than a gap may be long.
  struct Beyond {
    LogSpan span;
    double before_s = 0.0, after_s = 0.0;  ///< beyond the log's first and last row
  };
  std::vector<Beyond> beyond;
  std::int64_t too_short = 0;  ///< plateaus with too little steady time
  double longest_too_short_s = 0.0;
  LogPlace first_too_short;
  std::int64_t too_many = 0;  ///< stretches beyond `most_stretches`
  LogPlace first_too_many;
};

struct CutResult {
  std::vector<CutStretch> stretches;
  CutRemarks remarks;
};

}  // namespace hailwright::detail
