#include "hailwright/logs/log_stream.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <utility>

#include "hailwright/core/contract.hpp"
#include "hailwright/logs/log_recognise.hpp"
#include "logs/log_order.hpp"
#include "logs/log_order_notes.hpp"
#include "logs/log_pieces.hpp"
#include "logs/log_pieces_crew.hpp"
#include "logs/log_stamp.hpp"
#include "logs/time_zone.hpp"

namespace hailwright {

using namespace detail;

namespace {

constexpr std::int64_t hopeless_rows = 10'000;
constexpr unsigned most_threads = 64;

/// Whole lines of what is looked at to recognise a file.
std::string_view beginning_of(const LogPiece& piece) {
  const std::string_view text = piece.text();
  if (text.size() <= recognised_bytes) return text;
  const std::string_view looked_at = text.substr(0, recognised_bytes);
  const std::size_t whole = looked_at.rfind('\n') + 1;
  return looked_at.substr(0, whole > 0 ? whole : looked_at.size());
}

std::vector<LogRole> roles_of(const LogShape& shape) {
  std::vector<LogRole> roles;
  for (const LogColumn& column : shape.used)
    roles.push_back(column.role);
  std::sort(roles.begin(), roles.end());
  return roles;
}

std::string words_of(const std::vector<LogRole>& roles) {
  std::string words;
  for (const LogRole role : roles) {
    if (!words.empty()) words += ", ";
    words += word_of(role);
  }
  return words;
}

}  // namespace

class LogStream::Work {
public:
  Work(std::vector<LogFile> files, LogFormat stated, LogReadingPlan plan, SourceSet& sources)
      : files_(std::move(files)), stated_(std::move(stated)), plan_(std::move(plan)),
        sources_(sources), notes_(sources, plan_.tolerated_rows), order_(stated_.zone),
        crew_(plan_.threads) {
    // At once, so that their numbers follow each other whatever other log is read along with this.
    for (const LogFile& file : files_)
      numbers_.push_back(sources_.add_unkept(file.name));
  }

  bool open() {
    expects(!shape_, "a log is opened once");
    finished_ = !open_file(0);
    return !finished_;
  }

  [[nodiscard]] const LogShape& shape() const {
    expects(shape_.has_value(), "the log was opened");
    return *shape_;
  }

  bool next(LogBlock& into) {
    expects(shape_.has_value() || finished_, "the log was opened");
    while (!finished_) {
      if (LogCrew::Job* const job = crew_.next()) {
        take(*job, into);
        return true;
      }
      const bool broken = broke_off();
      if (broken) tell_why_it_broke_off();
      if (broken || file_ + 1 == files_.size() || !open_file(file_ + 1)) finish();
    }
    return false;
  }

  [[nodiscard]] const LogTally& tally() const { return tally_; }
  [[nodiscard]] const Diagnostics& notes() const { return notes_.notes(); }

private:
  bool open_file(std::size_t index);
  bool same_roles(const LogShape& shape);
  [[nodiscard]] bool broke_off() const { return pieces_->endless() || !pieces_->problem().empty(); }
  void tell_why_it_broke_off();
  void take(LogCrew::Job& job, LogBlock& into);
  void count(const LogBlock& block);
  void finish(bool given_up = false);

  std::vector<LogFile> files_;
  LogFormat stated_;
  LogReadingPlan plan_;
  SourceSet& sources_;
  LogNotes notes_;
  LogOrder order_;
  LogTally tally_;
  std::optional<LogShape> shape_;  ///< of the first file
  bool finished_ = false;

  std::size_t file_ = 0;                ///< index of the one that is read
  std::uint32_t number_ = 0;            ///< its number in `sources_`
  std::vector<std::uint32_t> numbers_;  ///< of all files
  std::int64_t next_line_ = 1;
  bool begins_file_ = false;
  std::optional<LogPieces> pieces_;
  LogCrew crew_;  // last, so that its threads end first
};

bool LogStream::Work::open_file(std::size_t index) {
  file_ = index;
  number_ = numbers_[index];
  next_line_ = 1;
  begins_file_ = true;
  pieces_.emplace(std::move(files_[index].bytes));
  LogPiece first;
  pieces_->next(first);
  if (broke_off()) {
    tell_why_it_broke_off();
    return false;
  }
  Diagnostics recognised;
  std::optional<LogShape> shape =
      recognise_log(beginning_of(first), stated_, number_, sources_, recognised);
  notes_.append(std::move(recognised));
  if (!shape) return false;
  if (!shape_) shape_ = *shape;
  if (!same_roles(*shape)) return false;
  std::optional<TimeZone> zone;
  if (!tells_utc(shape->stamp)) {
    zone = TimeZone::find(stated_.zone);
    expects(zone.has_value(), "a log whose zone is not known is not recognised");
  }
  order_.begin_file(*shape, files_[index].name, zone);
  crew_.begin_file(*shape, *pieces_, std::move(first));
  return true;
}

bool LogStream::Work::same_roles(const LogShape& shape) {
  const std::vector<LogRole> wanted = roles_of(*shape_);
  const std::vector<LogRole> found = roles_of(shape);
  if (wanted == found) return true;
  notes_.error("L08", {number_, 0, 0, 0},
               fmt::format("the files of a log differ: this one has {}, the first {}",
                           words_of(found), words_of(wanted)),
               {"name the files of one logger together, and state `columns:` if their headers "
                "differ"});
  return false;
}

void LogStream::Work::tell_why_it_broke_off() {
  if (pieces_->endless()) {
    notes_.error("L17", {number_, 0, 0, 0},
                 fmt::format("line {} goes on for more than {} MiB: reading stopped there",
                             next_line_, endless_line >> 20),
                 {"a row of a log is a line: check that the file is the logger's table"});
    return;
  }
  notes_.error("L01", {number_, 0, 0, 0},
               fmt::format("this file cannot be read to its end: {}", pieces_->problem()),
               {"copy the file again from the logger"});
}

void LogStream::Work::take(LogCrew::Job& job, LogBlock& into) {
  LogBlock& block = job.block;
  block.file = file_;
  block.begins_file = std::exchange(begins_file_, false);
  block.first_line = next_line_;
  block.bytes = static_cast<std::size_t>(job.piece.bytes);
  next_line_ += block.lines;
  order_.put(block, job.piece.text());
  notes_.add(block, number_);
  count(block);
  std::swap(into, block);
  if (plan_.progress) plan_.progress(tally_.bytes);
  if (tally_.rows == 0 && tally_.unreadable >= hopeless_rows) finish(true);
}

void LogStream::Work::count(const LogBlock& block) {
  tally_.bytes += static_cast<std::int64_t>(block.bytes);
  tally_.lines += block.lines;
  tally_.rows += static_cast<std::int64_t>(block.rows());
  tally_.unreadable += block.unreadable;
  tally_.out_of_order = order_.out_of_order();
  tally_.same_time = order_.same_time();
  tally_.comments += block.comments;
  tally_.repeated_headers += block.repeated_headers;
  if (!block.counted.empty()) tally_.by_code = notes_.counts();
}

void LogStream::Work::finish(bool given_up) {
  finished_ = true;
  notes_.finish(tally_, given_up);
}

LogStream::LogStream(std::vector<LogFile> files, LogFormat stated, LogReadingPlan plan,
                     SourceSet& sources) {
  expects(!files.empty(), "a log has a file");
  expects(plan.threads >= 1 && plan.threads <= most_threads, "1 to 64 threads");
  work_ = std::make_unique<Work>(std::move(files), std::move(stated), std::move(plan), sources);
}

LogStream::~LogStream() = default;

bool LogStream::open() {
  return work_->open();
}

const LogShape& LogStream::shape() const {
  return work_->shape();
}

bool LogStream::next(LogBlock& into) {
  return work_->next(into);
}

const LogTally& LogStream::tally() const {
  return work_->tally();
}

const Diagnostics& LogStream::notes() const {
  return work_->notes();
}

}  // namespace hailwright
