#include "cli/progress.hpp"

#include "support/catch.hpp"

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
