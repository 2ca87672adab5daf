#pragma once

#include <cstddef>
#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <vector>

// The door to the library of property tests: property.cpp alone includes it, since its headers are
// heavy.
namespace hailwright::testing {

/// Values of one case, drawn by name. A case that fails is made smaller by drawing lower values,
/// earlier items and orders less shuffled, so put the simple ones first.
class Draw {
public:
  /// Evenly spread, the ends more often than by chance. Requires low < high.
  double number(const std::string& name, double low, double high);
  /// The same with an evenly spread logarithm. Requires 0 < low < high.
  double magnitude(const std::string& name, double low, double high);
  int whole(const std::string& name, int low, int high);
  std::uint64_t bits(const std::string& name);
  bool coin(const std::string& name) { return whole(name, 0, 1) == 1; }
  /// The numbers 0 to n - 1 shuffled.
  std::vector<std::size_t> order(const std::string& name, std::size_t n);
  template <class T>
  const T& one_of(const std::string& name, const std::vector<T>& items) {
    return items.at(static_cast<std::size_t>(whole(name, 0, static_cast<int>(items.size()) - 1)));
  }
};

using Property = std::function<void(Draw&)>;

/// Fails the case. For use in properties instead of the test library's checks, which would count
/// every step of the way to a smaller case as a failure of the test.
void must(bool holds, const std::string& what);
void must_equal(double found, double wanted, const std::string& what);
void must_be_close(double found, double wanted, double tolerance, const std::string& what);
/// `larger` is not below `smaller` by more than the tolerance.
void must_not_fall(double larger, double smaller, double tolerance, const std::string& what);

/// How to look for a counterexample.
struct Search {
  int cases = 100;
  std::uint64_t seed = 20261126;
  int smaller = 150;  ///< so many smaller cases are tried once one has failed
};

/// The smallest counterexample that was found, with how it fails; nothing when there is none.
std::optional<std::string> counterexample(const Property& property, const Search& search);

/// Checks that a property holds in so many cases of a fixed seed; a failure names the
/// counterexample and how to see it again. HAILWRIGHT_PROPERTY_SEED takes another seed,
/// HAILWRIGHT_PROPERTY_CASES so many times the cases.
void holds(const std::string& what, const Property& property, int cases = 100);

}  // namespace hailwright::testing
