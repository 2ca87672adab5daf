#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "hailwright/report/compose_readings.hpp"
#include "report/json_values.hpp"

namespace hailwright::json {

/// {value, unit}.
Json amount(double si, const char* unit);
/// Null for what is no number.
Json number_or_null(double value);
/// Null for no words.
Json words_or_none(std::string_view words);
/// A number with its interval and its budget; null where there is none. For energies, powers and
/// ratios. Form: "log_number_J" of docs/schemas/report.schema.json.
template <class Q>
Json log_number(const std::optional<LogNumber<Q>>& number, const char* unit);
/// The same of a budget alone.
Json log_budget(const std::vector<BudgetRow>& rows);
/// A stretch with its numbers. Form: docs/schemas/readings.schema.json.
Json stretch(const ReadingsAnswer& answer, const LogStretch& stretch,
             const StretchNumbers& numbers);

/// How the log is built, what was read of it, by what rules it was measured, what was assumed.
Json log_format(const ReadingsAnswer& answer);
Json log_tally(const LogTally& tally);
Json log_rules(const ReadingsAnswer& answer);
Json log_assumed(const Assumptions& assumptions);

}  // namespace hailwright::json

namespace hailwright {

/// The name of the file of the log that a message points at; nothing for any other.
std::optional<std::string> file_of(const ReadingsAnswer& answer, const SourceSpan& where);

}  // namespace hailwright
