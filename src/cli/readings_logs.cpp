#include "cli/readings_logs.hpp"

#include <algorithm>
#include <utility>

#include "cli/byte_source.hpp"
#include "cli/files.hpp"

namespace hailwright::cli {

namespace {

std::optional<std::int64_t> size_of_all(const std::vector<std::string>& files) {
  std::int64_t total = 0;
  for (const std::string& file : files) {
    const SourceLook look = look_at_source(file);
    if (!look.size) return std::nullopt;
    total += *look.size;
  }
  return total;
}

void report(const std::string& file, const std::string& problem, const std::string& hint,
            SourceSet& sources, Diagnostics& notes) {
  notes.error("L01", {sources.add_unkept(shown_name(file)), 0, 0, 0}, problem,
              hint.empty() ? std::vector<std::string>{} : std::vector{hint});
}

bool is_named_before(const std::vector<std::string>& files, std::size_t i) {
  const std::vector<std::string> before(files.begin(),
                                        files.begin() + static_cast<std::ptrdiff_t>(i));
  if (files[i] == standard_input)
    return std::find(before.begin(), before.end(), files[i]) != before.end();
  return FileSet(before).has(files[i]);
}

void check_one_log(const std::vector<std::string>& files, SourceSet& sources, Diagnostics& notes) {
  for (std::size_t i = 0; i < files.size(); ++i) {
    const SourceLook look = look_at_source(files[i]);
    if (!look.problem.empty()) {
      report(files[i], "the file " + look.problem, look.hint, sources, notes);
    } else if (is_named_before(files, i)) {
      report(files[i], "the file is named twice", "name each file of a log once", sources, notes);
    }
  }
}

}  // namespace

std::string shown_name(const std::string& typed) {
  return typed == standard_input ? "standard input" : typed;
}

TypedLogs::TypedLogs(std::vector<std::string> first, std::vector<std::string> second)
    : first_(std::move(first)), second_(std::move(second)),
      taken_(std::make_shared<std::atomic<std::int64_t>>(0)) {
  const auto one = size_of_all(first_);
  const auto other = size_of_all(second_);
  if (one && other) total_ = *one + *other;
}

void TypedLogs::check(SourceSet& sources, Diagnostics& notes) const {
  check_one_log(first_, sources, notes);
  check_one_log(second_, sources, notes);
  const auto from_input = [](const std::vector<std::string>& files) {
    return std::find(files.begin(), files.end(), standard_input) != files.end();
  };
  if (from_input(first_) && from_input(second_)) {
    report(standard_input, "standard input cannot be both logs", "save one of them as a file",
           sources, notes);
  }
}

void TypedLogs::check_apart(SourceSet& sources, Diagnostics& notes) const {
  const FileSet known(first_);
  for (const std::string& file : second_) {
    if (file == standard_input || !known.has(file)) continue;
    report(file, "the file is part of the first log too",
           "name the log of the second panel after --beside, or its columns in the same file with "
           "--beside-columns",
           sources, notes);
  }
}

std::vector<LogFile> TypedLogs::open(const std::vector<std::string>& files) const {
  std::vector<LogFile> opened;
  for (const std::string& file : files) {
    const ByteWatch watch{[taken = taken_](std::string_view piece) {
                            taken->fetch_add(static_cast<std::int64_t>(piece.size()),
                                             std::memory_order_relaxed);
                          },
                          {}};
    opened.push_back({shown_name(file), byte_source(file, watch)});
  }
  return opened;
}

}  // namespace hailwright::cli
