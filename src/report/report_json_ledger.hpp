#pragma once

#include <initializer_list>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <string_view>

#include "hailwright/core/quantity_text.hpp"
#include "hailwright/core/source.hpp"
#include "hailwright/evaluate/defaults.hpp"
#include "hailwright/report/write_up.hpp"
#include "report/json_values.hpp"

namespace hailwright::json {

/// Ids of the sources of a number, the ones of `hailwright sources` or of `default_source`.
using SourceIds = std::initializer_list<std::string_view>;

/// Symbol of the SI unit in which the report gives all amounts of a measure: "m/s", "1" for a
/// ratio.
const char* si_unit(Measure measure);
template <Measured Q>
const char* si_unit_of() {
  return si_unit(MeasureOf<Q>::value);
}

/// "default-meter_accuracy": a value that the program took since nobody stated it.
std::string default_source(DefaultId id);

/// Writes the numbers of a report, each with its unit and with where it comes from, and remembers
/// which sources were named. Amounts are the very doubles of the judgement, never rounded.
class Ledger {
public:
  explicit Ledger(const WriteUp& write_up);

  /// {file, line}, the file as it lies beside the report where it was copied; null where the place
  /// is not known.
  [[nodiscard]] Json where(const SourceSpan& span) const;

  /// A number that rests on published tables or on a method.
  /// Contract: finite, at least one source, each of them known.
  Json computed(double value, std::string_view unit, SourceIds sources);
  Json computed(double value, std::string_view unit, std::string_view source) {
    return computed(value, unit, {source});
  }
  template <Measured Q>
  Json computed(Q q, SourceIds sources) {
    return computed(value_in_si(q), si_unit_of<Q>(), sources);
  }
  template <Measured Q>
  Json computed(const std::optional<Q>& q, SourceIds sources) {
    return q ? computed(*q, sources) : Json(nullptr);
  }

  /// The same with its standard uncertainty and degrees of freedom.
  Json estimated(double value, double standard_u, double dof, std::string_view unit,
                 SourceIds sources);

  /// A number that stands in a file: read off an instrument, or laid down.
  [[nodiscard]] Json stated(double value, std::string_view unit, const SourceSpan& span) const;
  template <Measured Q>
  [[nodiscard]] Json stated(Q q, const SourceSpan& span) const {
    return stated(value_in_si(q), si_unit_of<Q>(), span);
  }
  template <class Q>
  [[nodiscard]] Json stated(const std::optional<Q>& q, const SourceSpan& span) const {
    return q ? stated(*q, span) : Json(nullptr);
  }

  /// Marks a source as used where a row names it without a number.
  std::string use(std::string_view id);

  /// All sources named so far, in the order of `hailwright sources`.
  [[nodiscard]] Json sources() const;

private:
  const SourceSet* sources_;
  std::map<std::string, std::string, std::less<>> copies_;  ///< path in the write-up, by name
  std::set<std::string, std::less<>> used_;
};

/// {"value": 14.2}, or {"value": null, "word": "unlimited"} where nothing was observed by repeats.
Json degrees_of_freedom(double value);

/// Words, or null where there are none: an empty text says that nothing was stated.
Json words_or_null(const std::string& words);

}  // namespace hailwright::json
