#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "hailwright/core/quantity_text.hpp"
#include "hailwright/report/compose_readings.hpp"
#include "hailwright/safety/cautions.hpp"

// What is said of a log, word for word in every format.

namespace hailwright {

/// "412.3 Wh ± 9.5 Wh (95 %)", rounded by the standard uncertainty; alone where that is 0.
std::string within_text(double value, double standard_u, double half_width, const char* unit);

template <class Q>
std::string number_text(const LogNumber<Q>& number, const char* unit) {
  const Unit* u = find_unit(unit, MeasureOf<Q>::value);
  return within_text(number_in(number.estimate.value.si(), *u),
                     number_in(number.estimate.standard_u.si(), *u),
                     number_in(number.half_width().si(), *u), unit);
}
/// "0.981 ± 0.014 (95 %)".
std::string ratio_text(const LogNumber<Ratio>& number);

/// "1 row", "36000 rows".
std::string counted_rows(std::int64_t rows);
/// "0.53 %" of all; below a hundredth of a per cent "less than 0.01 %".
std::string share_text(double part, double all);
/// "16.2 MB", "874 bytes"; powers of ten.
std::string bytes_text(std::int64_t bytes);
/// "day.csv", "day.csv, next.csv and 2 more".
std::string files_text(const std::vector<std::string>& files);
/// A file as typed; "standard input" for "-".
std::string shown_file(const std::string& typed);
/// As a page shows it that may be published: of a file by its whole path the name alone.
std::string published_file(const std::string& typed);
/// As `files_text` without folders, for titles: what is published need not tell where files lay.
std::string names_text(std::vector<std::string> files);

/// The answer in one line.
std::string log_headline(const ReadingsAnswer& answer);
/// Why a stretch with rows has none.
std::string no_energy_sentence(const LogStretch& stretch, Time longest_gap);

/// How much was read.
std::string read_sentence(const LogTally& tally);
/// What could not be used; said also when all could.
std::string unused_sentence(const LogTally& tally);
/// What else was met: times that came twice, repeated headers, comments; empty for none.
std::string met_sentence(const LogTally& tally);

/// The rule by which steps in time are bridged, and what it left out.
std::string gaps_sentence(const LogStretch& stretch, Time longest_gap);
/// The steady rule in words.
std::string steady_rule_text(const SteadyRule& rule);
/// What it removed, by reason.
std::string removed_sentence(const SteadyTally& tally);
/// "3600 readings worth 41 independent ones (lag-1 autocorrelation 0.98)"; `of` names them:
/// "3600 readings of power worth ...".
std::string worth_sentence(const SeriesMean& series, std::string_view of = {});
/// As `worth_sentence` of the normalised power, or of the power where there is none, and how many
/// steady readings of power have no normalised one.
std::string named_worth_sentence(const LogStretch& stretch);
/// What is to be said of a mean whose rows are few; empty when nothing is.
std::string few_readings_sentence(LogScatter scatter, const SeriesMean& series);
/// Why a stretch has no normalised power: "the log has no irradiance".
std::string why_not_normalised(const ReadingsAnswer& answer);
/// The counter beside the integral. Contract: a counter.
std::string counter_sentence(const LogStretch& stretch, const StretchNumbers& numbers);
std::string clipping_sentence(const LogClipping& clipping, std::string_view whose);
/// The second panel beside the first. Contract: a ratio.
std::string ratio_sentence(const LogNumber<Ratio>& ratio, const RatioMean& mean);
/// What became of the search for an offset between two clocks.
std::string clock_sentence(const ClockOffset& offset, Time used);
/// How the stretches were cut out, and what that does not tell.
std::string cut_sentence(const LogCut& cut, std::size_t stretches);

/// A panel was read in the sun: what applies to that, most urgent first.
std::vector<const Caution*> log_cautions(const LogFindings& findings);

}  // namespace hailwright
