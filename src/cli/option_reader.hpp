#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <type_traits>
#include <utility>
#include <vector>

#include "hailwright/core/diagnostic.hpp"
#include "hailwright/core/quantity_text.hpp"
#include "hailwright/metrology/stated.hpp"
#include "input/map_reader.hpp"
#include "input/stated_text.hpp"

namespace hailwright::cli {

/// Values that an option may have.
using Bounds = input::Range;

/// "--name".
std::string dashed(std::string_view option);

/// Reads options that were typed as text, each fault reported, none of them final. An empty text is
/// an option that was not given: nothing comes back, in silence.
class OptionReader {
public:
  std::optional<Amount> amount(std::string_view option, const std::string& text, Measure measure,
                               const Bounds& bounds);

  template <Measured Q>
  std::optional<Q> quantity(std::string_view option, const std::string& text,
                            const Bounds& bounds) {
    const auto read = amount(option, text, MeasureOf<Q>::value, bounds);
    if (!read) return std::nullopt;
    return quantity_from_si<Q>(read->si);
  }

  std::optional<double> number(std::string_view option, const std::string& text,
                               const Bounds& bounds);
  std::optional<int> count(std::string_view option, const std::string& text, const Bounds& bounds);

  /// A half-width, in per cent of the reading or in its own unit.
  template <Measured Q>
  std::optional<Stated<Q>> accuracy(std::string_view option, const std::string& text) {
    if (text.empty()) return std::nullopt;
    const bool share = text.find('%') != std::string::npos;
    constexpr Bounds size{input::least_error_size, input::largest_error_size,
                          "more than 0, up to a million in SI"};
    constexpr Bounds part{input::least_error_size, input::largest_error_share,
                          "more than 0 %, up to 100 %"};
    const auto read = share ? amount(option, text, Measure::ratio, part)
                            : amount(option, text, MeasureOf<Q>::value, size);
    if (!read) return std::nullopt;
    Stated<Q> stated;
    if (share) {
      stated.relative = Ratio::from_si(read->si);
    } else if constexpr (!std::is_same_v<Q, Ratio>) {
      stated.absolute = Q::from_si(read->si);
    }
    return stated;
  }

  void error(std::string_view code, std::string message, std::vector<std::string> hints = {}) {
    notes.error(code, {}, std::move(message), std::move(hints));
  }

  Diagnostics notes;

private:
  bool understood(std::string_view option, const std::optional<TextProblem>& problem);
  bool within(std::string_view option, const std::string& text, double value, const Bounds& bounds);
};

}  // namespace hailwright::cli
