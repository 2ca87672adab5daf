#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "hailwright/core/source.hpp"
#include "hailwright/evaluate/assessment.hpp"
#include "hailwright/report/document.hpp"
#include "report/power_sentences.hpp"

// Every sentence of a judgement stands in sentences.cpp, power_sentences.cpp and
// check_sentences.cpp, so that what may be said and what may not (MEASUREMENT M18) is decided in
// one place.

namespace hailwright {

struct Judged;

std::string_view word_text(Word word);
Tone word_tone(Word word);

/// A target as it is named in sentences: with the mark of figures that nobody read.
std::string target_text(const Target& target);

/// One line that says what became of the panel, series by series.
std::string headline(const Test& test, const Assessment& assessment);

/// Why a series got its word, or what else bears on it.
std::string reason_sentence(const SeriesReason& reason, const SeriesVerdict& verdict,
                            const Test& test, const Assessment& assessment);

/// What was delivered, for a series whose grade was not reached.
std::string delivered_sentence(const SeriesDelivery& delivery, const SeriesVerdict& verdict,
                               const Assessment& assessment);

/// How the hits before a damage stood to the grade.
std::string damage_sentence(DamageBy by);

/// Why a hit does not count as at least at the grade.
std::string doubt_text(StrengthDoubt doubt);

/// Which series one stage or one look answers for: "small and large together".
std::string coverage_text(const Coverage& coverage, const Test& test);

/// "before", "after small", "after", "later".
std::string stage_text(StageId stage, const Test& test);

/// "48 to 51 days after the shots", "on the day of the shots". Contract: a dated stage.
std::string days_after_text(const PowerResult& power);

/// A stage with its days where it is a later one: "later, 51 days after the shots".
std::string told_stage(const PowerResult& power, const Test& test);

/// "panel", "control", "unit D".
std::string panel_text(const Reading& reading, const Record& record);

/// What the hits of a series say about further hits on this panel (MEASUREMENT M12).
std::string evidence_sentence(const HitEvidence& evidence);

/// " (readings.csv, line 26)"; empty where no file is known.
std::string place_text(const SourceSet& sources, const SourceSpan& where);

/// The last line of every judgement, and what it says where nothing but other stresses than hail
/// was planned.
std::string_view closing_sentence();
std::string_view closing_sentence(const Protocol& protocol);
std::string_view closing_sentence(const std::vector<Judged>& judged);

/// A limit as it was typed: "2.5 %", "5 %".
std::string limit_text(Ratio limit);

/// A probability as per cent, to two digits at most; its far ends as bounds, since no model is good
/// to a thousandth.
std::string probability_text(double probability);

/// "9 times in 10", "95 times in 100".
std::string chance_text(Ratio chance);

/// "95 %": the level of the interval at this risk of each wrong statement.
std::string level_text(double alpha);

/// Of a share beyond this, only that it is: digits of what is not known at all say nothing [ours].
inline constexpr Ratio most_percent_shown = Ratio::from_si(10.0);

/// "5.3 %", "0.64 %": a share as per cent, to so many decimals; "above 1000 %", "below -1000 %".
std::string percent_text(Ratio ratio, int decimals = 1);

}  // namespace hailwright
