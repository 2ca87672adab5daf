#pragma once

#include <atomic>
#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "hailwright/core/diagnostic.hpp"
#include "hailwright/core/source.hpp"
#include "hailwright/logs/log_format.hpp"

namespace hailwright::cli {

/// The files of one or two logs as they were typed, looked at before any is read.
class TypedLogs {
public:
  TypedLogs(std::vector<std::string> first, std::vector<std::string> second);

  /// What cannot be read, or is named twice.
  void check(SourceSet& sources, Diagnostics& notes) const;
  /// An error for each file of the second log that the first one has too: read in the same columns,
  /// a log beside itself gives a ratio of 1 and says nothing.
  void check_apart(SourceSet& sources, Diagnostics& notes) const;
  /// Whether all can be read more than once: a pipe cannot.
  [[nodiscard]] bool can_be_read_again() const { return total_.has_value(); }
  /// Of all files, as they lie on the disk [bytes]; nothing where that is not known.
  [[nodiscard]] std::optional<std::int64_t> total() const { return total_; }

  [[nodiscard]] std::vector<LogFile> open_first() const { return open(first_); }
  [[nodiscard]] std::vector<LogFile> open_second() const { return open(second_); }
  [[nodiscard]] bool has_second() const { return !second_.empty(); }
  /// Bytes read so far of all files that were opened, as they lie on the disk.
  [[nodiscard]] std::int64_t taken() const { return taken_->load(); }

private:
  [[nodiscard]] std::vector<LogFile> open(const std::vector<std::string>& files) const;

  std::vector<std::string> first_, second_;
  std::optional<std::int64_t> total_;
  std::shared_ptr<std::atomic<std::int64_t>> taken_;
};

/// How messages call what was typed: "standard input" for "-".
std::string shown_name(const std::string& typed);

}  // namespace hailwright::cli
