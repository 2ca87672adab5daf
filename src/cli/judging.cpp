#include "cli/judging.hpp"

#include <algorithm>
#include <charconv>
#include <cstdint>
#include <thread>
#include <utility>

#include "cli/progress.hpp"
#include "cli/terminal.hpp"
#include "hailwright/core/quantity_text.hpp"

namespace hailwright::cli {

namespace {

template <class Whole>
std::optional<Whole> read_whole(const std::string& text) {
  Whole value = 0;
  const char* end = text.data() + text.size();
  const auto [stop, error] = std::from_chars(text.data(), end, value);
  return error == std::errc() && stop == end ? std::optional(value) : std::nullopt;
}

constexpr std::int64_t fewest_trials = 20'000;
constexpr std::int64_t most_trials = 10'000'000;
constexpr int most_threads = 64;

/// Messages name what cannot be understood.
class Reader {
public:
  explicit Reader(const JudgingOptions& options) : options_(options) {}

  Judging read() {
    trials();
    seed();
    threads();
    plan_.shortest = options_.shortest;
    limit();
    if (wanted_) judging_.check = std::move(plan_);
    return std::move(judging_);
  }
  /// Empty when all was understood.
  [[nodiscard]] const std::string& messages() const { return messages_; }

private:
  void refuse(const char* option, const std::string& found, const char* wanted) {
    messages_ +=
        std::string("hailwright: ") + option + " must be " + wanted + ", found '" + found + "'\n";
  }

  void trials() {
    if (options_.trials == "adaptive") {
      plan_.adaptive = true;
      plan_.trials = most_trials;
      return;
    }
    const auto n = read_whole<std::int64_t>(options_.trials);
    if (!n || (*n != 0 && (*n < fewest_trials || *n > most_trials))) {
      return refuse("--trials", options_.trials,
                    "a whole number from 20000 to 10000000, adaptive, or 0 for none");
    }
    plan_.trials = *n;
    wanted_ = *n > 0;
  }

  void seed() {
    const auto n = read_whole<std::uint64_t>(options_.seed);
    if (!n) return refuse("--seed", options_.seed, "a whole number, 0 or more");
    plan_.seed = *n;
  }

  void threads() {
    if (options_.threads.empty()) {
      const auto cores = static_cast<int>(std::thread::hardware_concurrency());
      plan_.threads = std::clamp(cores, 1, most_threads);
      return;
    }
    const auto n = read_whole<int>(options_.threads);
    if (!n || *n < 1 || *n > most_threads) {
      return refuse("--threads", options_.threads, "a whole number from 1 to 64");
    }
    plan_.threads = *n;
  }

  void limit() {
    if (options_.limit.empty()) return;
    const TextResult<Ratio> read = read_quantity<Ratio>(options_.limit);
    if (!read.value || !(read.value->si() > 0.0) || !(read.value->si() < 1.0)) {
      return refuse("--limit", options_.limit, "more than 0 % and less than 100 %, such as 2%");
    }
    judging_.limit = *read.value;
  }

  const JudgingOptions& options_;
  Judging judging_;
  CheckPlan plan_;
  bool wanted_ = true;
  std::string messages_;
};

std::vector<Assessment> assess_all(const std::vector<Test>& tests, std::optional<CheckPlan> check) {
  TrialProgress progress(write_messages, messages_are_watched());
  if (check) {
    check->progress = [&](std::int64_t done, std::int64_t most) { progress.report(done, most); };
  }
  std::vector<Assessment> assessments;
  assessments.reserve(tests.size());
  for (const Test& test : tests)
    assessments.push_back(assess(test, check));
  progress.erase();
  return assessments;
}

}  // namespace

std::optional<Judging> read_judging(const JudgingOptions& options) {
  Reader reader(options);
  Judging judging = reader.read();
  write_messages(reader.messages());
  return reader.messages().empty() ? std::optional(std::move(judging)) : std::nullopt;
}

JudgedTests::JudgedTests(const std::vector<Test>& tests, const Judging& judging)
    : assessments_(assess_all(tests, judging.check)) {
  if (judging.limit) {
    for (const Assessment& assessment : assessments_)
      limits_.push_back(answer_reader_limit(assessment, *judging.limit));
  }
  for (std::size_t i = 0; i < tests.size(); ++i)
    judged_.push_back({&tests[i], &assessments_[i], judging.limit ? &limits_[i] : nullptr});
}

bool JudgedTests::all_withstood() const {
  const auto withstood = [](const auto& verdict) { return verdict.word == Word::withstood; };
  return std::all_of(judged_.begin(), judged_.end(), [&](const auto& judged) {
    const Assessment& a = *judged.assessment;
    // A stress that was planned and not done has no verdict.
    return a.stresses.size() == judged.test->protocol.stresses.size() &&
           std::all_of(a.verdicts.begin(), a.verdicts.end(), withstood) &&
           std::all_of(a.stresses.begin(), a.stresses.end(), withstood);
  });
}

}  // namespace hailwright::cli
