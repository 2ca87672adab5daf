#pragma once

#include <condition_variable>
#include <cstddef>
#include <exception>
#include <memory>
#include <mutex>
#include <thread>
#include <vector>

#include "hailwright/logs/log_block.hpp"
#include "hailwright/logs/log_format.hpp"
#include "logs/log_parser.hpp"
#include "logs/log_pieces.hpp"

namespace hailwright::detail {

/// Several threads that parse the pieces of a file; the blocks come in the order of the pieces. The
/// calling thread reads the pieces, and parses too when it would wait. So nobody waits for a source
/// that says nothing but the caller, who can be stopped, and `LogBytes` is called by one thread.
class LogCrew {
public:
  struct Job {
    LogPiece piece;
    LogBlock block;
    std::exception_ptr error;
    bool taken = false;
    bool done = false;
  };

  /// @param threads  the caller's among them: with 1 no thread is started
  explicit LogCrew(unsigned threads);
  LogCrew(const LogCrew&) = delete;
  LogCrew& operator=(const LogCrew&) = delete;
  LogCrew(LogCrew&&) = delete;
  LogCrew& operator=(LogCrew&&) = delete;
  ~LogCrew();

  /// Goes on with this file. Contract: the one before has come to its end.
  /// @param first  its first piece, which is read already
  void begin_file(const LogShape& shape, LogPieces& pieces, LogPiece first);
  /// The next piece, parsed; its block may be taken. It stays until the next call. Nullptr at the
  /// end of the file. An exception of a source or a parser comes out here.
  Job* next();

private:
  void work(std::size_t parser);
  void read_ahead();
  Job* waiting();
  void parse(Job& job, std::size_t parser, std::unique_lock<std::mutex>& lock);
  Job& job(std::size_t number) { return jobs_[number % jobs_.size()]; }

  std::vector<std::unique_ptr<LogParser>> parsers_;  ///< one a thread; the first is the caller's
  LogPieces* pieces_ = nullptr;
  bool given_ = false;  ///< the job of `next_given_` is with the caller

  std::mutex mutex_;  // guards what follows
  std::condition_variable changed_;
  std::vector<Job> jobs_;
  std::size_t next_given_ = 0;  ///< number of a job; its place is the remainder
  std::size_t next_read_ = 0;
  bool read_all_ = true;
  bool stopped_ = false;

  std::vector<std::thread> threads_;
};

}  // namespace hailwright::detail
