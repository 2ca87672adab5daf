#include "cli/progress.hpp"

#include "support/catch.hpp"

using hailwright::cli::ReadingProgress;
using hailwright::cli::TrialProgress;

namespace {

/// What stands on the line, with a clock that is set by hand.
struct Terminal {
  explicit Terminal(bool watched = true)
      : progress([this](const std::string& text) { written += text; }, watched,
                 [this] { return now; }) {}
  double now = 0.0;
  std::string written;
  TrialProgress progress;
};

}  // namespace

TEST_CASE("progress: nothing is written in the first second") {
  Terminal t;
  t.now = 0.9;
  t.progress.report(500'000, 1'000'000);
  t.progress.erase();
  CHECK(t.written.empty());
}

TEST_CASE("progress: share and rate after a second, and nothing is left behind") {
  Terminal t;
  t.now = 2.0;
  t.progress.report(4'000'000, 10'000'000);
  const std::string line = "random trials: 40 % of 10.0 million, 2.0 million a second";
  CHECK(t.written == "\r" + line);
  t.written.clear();
  t.progress.erase();
  CHECK(t.written == "\r" + std::string(line.size(), ' ') + "\r");
  t.written.clear();
  t.progress.erase();
  CHECK(t.written.empty());
}

TEST_CASE("progress: the line is drawn ten times a second at most, and covers the one before") {
  Terminal t;
  t.now = 2.0;
  t.progress.report(1'000'000, 1'000'000);
  t.written.clear();
  t.now = 2.05;
  t.progress.report(20'000, 1'000'000);
  CHECK(t.written.empty());
  t.now = 2.2;
  t.progress.report(30'000, 1'000'000);
  CHECK(t.written == "\rrandom trials: 3 % of 1.0 million, 0.5 million a second  ");
}

TEST_CASE("progress: trials of earlier runs count in the rate") {
  Terminal t;
  t.now = 0.5;
  t.progress.report(1'000'000, 1'000'000);
  t.now = 2.0;
  t.progress.report(500'000, 1'000'000);
  CHECK_THAT(t.written, Contains("50 % of 1.0 million, 0.8 million a second"));
}

TEST_CASE("progress: nothing where nobody watches") {
  Terminal t(false);
  t.now = 5.0;
  t.progress.report(1, 2);
  t.progress.erase();
  CHECK(t.written.empty());
}

namespace {

/// The same about a log.
struct ReadingTerminal {
  explicit ReadingTerminal(std::optional<std::int64_t> total)
      : progress([this](const std::string& text) { written += text; }, true, total,
                 [this] { return now; }) {}
  std::string after(double seconds, std::int64_t bytes) {
    now = seconds;
    written.clear();
    progress.report(bytes);
    return written;
  }
  double now = 0.0;
  std::string written;
  ReadingProgress progress;
};

}  // namespace

TEST_CASE("progress: a log that is read tells share, rate and time left") {
  ReadingTerminal t(445'000'000);
  CHECK(t.after(0.5, 100'000'000).empty());
  CHECK(t.after(1.25, 200'000'000) == "\rreadings: 44 % of 445 MB, 160 MB/s, 2 s left");
  CHECK(t.after(1.3, 210'000'000).empty());
  CHECK(t.after(2.0, 444'900'000) == "\rreadings: 99 % of 445 MB, 222 MB/s, 1 s left");
  CHECK_THAT(t.after(3.0, 450'000'000), Contains("100 % of 450 MB, 150 MB/s, 0 s left"));
  t.written.clear();
  t.progress.erase();
  CHECK(t.written.ends_with(" \r"));
}

TEST_CASE("progress: a long time left is in minutes") {
  ReadingTerminal t(10'000'000'000);
  CHECK(t.after(10.0, 100'000'000) == "\rreadings: 1 % of 10000 MB, 10 MB/s, 17 min left");
}

TEST_CASE("progress: of a pipe only what came is known") {
  ReadingTerminal t(std::nullopt);
  CHECK(t.after(2.0, 30'000'000) == "\rreadings: 30 MB, 15 MB/s");
  ReadingTerminal empty(0);
  CHECK(empty.after(2.0, 0) == "\rreadings: 0 MB, 0 MB/s");
}
