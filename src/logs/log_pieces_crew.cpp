#include "logs/log_pieces_crew.hpp"

#include <algorithm>
#include <utility>

#include "hailwright/core/contract.hpp"

namespace hailwright::detail {

LogCrew::LogCrew(unsigned threads) : parsers_(threads), jobs_(threads == 1 ? 1 : threads + 4) {
  try {
    for (std::size_t i = 1; i < threads; ++i)
      threads_.emplace_back([this, i] { work(i); });
  } catch (...) {
    // The machine gives no more threads: those that there are do the work.
  }
}

LogCrew::~LogCrew() {
  {
    const std::lock_guard lock(mutex_);
    stopped_ = true;
  }
  changed_.notify_all();
  for (std::thread& thread : threads_)
    thread.join();
}

void LogCrew::begin_file(const LogShape& shape, LogPieces& pieces, LogPiece first) {
  const std::lock_guard lock(mutex_);
  expects(read_all_ && next_given_ == next_read_ && !given_, "the file before is at its end");
  for (std::unique_ptr<LogParser>& parser : parsers_)
    parser = std::make_unique<LogParser>(shape);
  pieces_ = &pieces;
  read_all_ = false;
  Job& begun = job(next_read_++);
  std::swap(begun.piece, first);
  begun.taken = false;
  begun.done = false;
  changed_.notify_one();
}

LogCrew::Job* LogCrew::next() {
  {
    const std::lock_guard lock(mutex_);
    if (std::exchange(given_, false)) ++next_given_;
  }
  read_ahead();
  std::unique_lock lock(mutex_);
  if (next_given_ == next_read_) return nullptr;
  Job& wanted = job(next_given_);
  while (!wanted.done) {
    if (Job* const other = waiting()) {
      parse(*other, 0, lock);
    } else {
      changed_.wait(lock);
    }
  }
  given_ = true;
  if (wanted.error) std::rethrow_exception(std::exchange(wanted.error, nullptr));
  return &wanted;
}

/// Reads pieces into all jobs that are free.
void LogCrew::read_ahead() {
  for (;;) {
    std::unique_lock lock(mutex_);
    if (read_all_ || next_read_ - next_given_ == jobs_.size()) return;
    Job& free = job(next_read_);
    lock.unlock();  // nobody else looks at a job that is not read
    bool more = false;
    free.error = nullptr;
    try {
      more = pieces_->next(free.piece);
    } catch (...) {
      free.error = std::current_exception();
    }
    lock.lock();
    read_all_ = !more;
    if (!more && !free.error) return;
    free.done = !more;  // an exception comes out in its turn
    free.taken = !more;
    ++next_read_;
    changed_.notify_one();
  }
}

/// The first job that nobody has taken; nullptr when there is none.
LogCrew::Job* LogCrew::waiting() {
  for (std::size_t i = next_given_; i < next_read_; ++i) {
    if (!job(i).taken) return &job(i);
  }
  return nullptr;
}

void LogCrew::parse(Job& job, std::size_t parser, std::unique_lock<std::mutex>& lock) {
  job.taken = true;
  lock.unlock();
  try {
    parsers_[parser]->parse(job.piece.text(), job.piece.at_file_begin, job.piece.last, job.block);
  } catch (...) {
    job.error = std::current_exception();
  }
  lock.lock();
  job.done = true;
  changed_.notify_all();
}

void LogCrew::work(std::size_t parser) {
  std::unique_lock lock(mutex_);
  while (!stopped_) {
    if (Job* const job = waiting()) {
      parse(*job, parser, lock);
    } else {
      changed_.wait(lock);
    }
  }
}

}  // namespace hailwright::detail
