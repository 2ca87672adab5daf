#include "support/property.hpp"

#include <fmt/format.h>
#include <rapidcheck.h>

#include <charconv>
#include <cmath>
#include <cstdlib>
#include <numeric>
#include <sstream>
#include <stdexcept>
#include <string_view>
#include <unordered_map>

#include "support/catch.hpp"

namespace hailwright::testing {

namespace {

/// Steps into which a range of numbers is cut: enough for any law, few enough to be made smaller
/// quickly.
constexpr int number_steps = 1 << 20;

/// The library begins with small cases; ours differ by more than size, so all are of full size.
template <class T>
rc::Gen<T> of_full_size(rc::Gen<T> values) {
  return rc::gen::resize(rc::kNominalSize, std::move(values));
}

/// Evenly from 0 to 1.
rc::Gen<double> share() {
  const auto steps = of_full_size(rc::gen::inRange(0, number_steps + 1));
  const auto even =
      rc::gen::map(steps, [](int step) { return static_cast<double>(step) / number_steps; });
  return rc::gen::weightedOneOf<double>(
      {{8, even}, {1, rc::gen::just(0.0)}, {1, rc::gen::just(1.0)}});
}

std::uint64_t from_environment(const char* name, std::uint64_t otherwise) {
  const char* text = std::getenv(name);
  if (text == nullptr) return otherwise;
  const std::string_view digits = text;
  std::uint64_t value = 0;
  const auto read = std::from_chars(digits.data(), digits.data() + digits.size(), value);
  if (read.ec != std::errc{} || read.ptr != digits.data() + digits.size()) {
    throw std::invalid_argument(fmt::format("{} must be a whole number", name));
  }
  return value;
}

/// Says nothing; the library's own would print its configuration, whose seed is not ours.
struct Silent : rc::detail::TestListener {
  void onTestCaseFinished(const rc::detail::CaseDescription&) override {}
  void onShrinkTried(const rc::detail::CaseDescription&, bool) override {}
  void onTestFinished(const rc::detail::TestMetadata&, const rc::detail::TestResult&) override {}
};

std::string result_text(const rc::detail::TestResult& result) {
  std::ostringstream text;
  rc::detail::printResultMessage(result, text);
  return text.str();
}

}  // namespace

double Draw::number(const std::string& name, double low, double high) {
  return *rc::gen::map(share(), [=](double s) { return s * high + (1.0 - s) * low; }).as(name);
}

double Draw::magnitude(const std::string& name, double low, double high) {
  return *rc::gen::map(share(), [=](double s) {
            if (s == 0.0 || s == 1.0) return s == 0.0 ? low : high;
            return std::exp(s * std::log(high) + (1.0 - s) * std::log(low));
          }).as(name);
}

int Draw::whole(const std::string& name, int low, int high) {
  return *of_full_size(rc::gen::inRange(low, high + 1)).as(name);
}

std::uint64_t Draw::bits(const std::string& name) {
  return *of_full_size(rc::gen::arbitrary<std::uint64_t>()).as(name);
}

std::vector<std::size_t> Draw::order(const std::string& name, std::size_t n) {
  std::vector<std::size_t> all(n);
  std::iota(all.begin(), all.end(), std::size_t{0});
  for (std::size_t i = n; i > 1; --i) {
    // The last of those left stays where it is in the simplest case.
    const int back = whole(fmt::format("{}, step {}", name, i), 0, static_cast<int>(i) - 1);
    std::swap(all[i - 1], all[i - 1 - static_cast<std::size_t>(back)]);
  }
  return all;
}

void must(bool holds, const std::string& what) {
  if (!holds) throw std::runtime_error(what);
}

void must_equal(double found, double wanted, const std::string& what) {
  must(found == wanted, fmt::format("{}: {} is not {}", what, found, wanted));
}

void must_be_close(double found, double wanted, double tolerance, const std::string& what) {
  must(std::abs(found - wanted) <= tolerance,
       fmt::format("{}: {} is not within {} of {}", what, found, tolerance, wanted));
}

void must_not_fall(double larger, double smaller, double tolerance, const std::string& what) {
  must(larger >= smaller - tolerance,
       fmt::format("{}: {} has fallen below {}", what, larger, smaller));
}

std::optional<std::string> counterexample(const Property& property, const Search& search) {
  rc::detail::TestParams params;
  params.seed = search.seed;
  params.maxSuccess = search.cases;
  Silent silent;
  const std::unordered_map<std::string, rc::detail::Reproduce> nothing_to_reproduce;
  int tries_left = search.smaller;
  bool failed = false;
  const auto one_case = [&] {
    // What is not tried counts as holding, so that the search for a smaller case comes to an end.
    if (failed && tries_left-- <= 0) return;
    Draw draw;
    try {
      property(draw);
    } catch (...) {
      failed = true;
      throw;
    }
  };
  const auto result = rc::detail::checkTestable(one_case, rc::detail::TestMetadata{}, params,
                                                silent, nothing_to_reproduce);
  if (result.is<rc::detail::SuccessResult>()) return std::nullopt;
  return result_text(result);
}

void holds(const std::string& what, const Property& property, int cases) {
  Search search;
  search.seed = from_environment("HAILWRIGHT_PROPERTY_SEED", search.seed);
  const std::uint64_t times = from_environment("HAILWRIGHT_PROPERTY_CASES", 1);
  REQUIRE(times > 0);
  search.cases = cases * static_cast<int>(times);
  const auto found = counterexample(property, search);
  INFO(what);
  INFO(fmt::format("Again: HAILWRIGHT_PROPERTY_SEED={} HAILWRIGHT_PROPERTY_CASES={} "
                   "hailwright_tests \"{}\"",
                   search.seed, times, Catch::getResultCapture().getCurrentTestName()));
  INFO(found.value_or(""));
  CHECK_FALSE(found.has_value());
}

}  // namespace hailwright::testing
