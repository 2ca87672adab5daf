#pragma once

#include <string>
#include <vector>

#include "hailwright/core/source.hpp"
#include "hailwright/logs/log_analysis.hpp"
#include "hailwright/logs/log_stream.hpp"

namespace hailwright {

/// A logger's file (or several in sequence) that a record points to, with what was read from it.
struct LogUse {
  SourceSpan origin;               ///< the entry in the record
  std::vector<std::string> files;  ///< as the record writes them, from the record's folder
  LogFormat stated;
  LogShape shape;
  LogQuestion question;  ///< as it was asked, with the longest gap that was taken
  LogTally tally;
  /// Of `Record::logs` without the kept rows: those are readings of the record.
  LogFindings findings;
  /// Of each of `findings.stretches`: index into `Record::setups`; empty for sessions.
  std::vector<std::size_t> setups;
};

}  // namespace hailwright
