#pragma once

#include <string>
#include <vector>

#include "hailwright/model/record.hpp"
#include "hailwright/report/compose_readings.hpp"
#include "report/log_answer.hpp"

// What is said of the logs of a record, beyond what `hailwright readings` says of a log
// (readings_sentences.hpp).

namespace hailwright {

/// "3 set-ups with 1000 rows, cut by the times in the record: 912 readings count, 88 are left out
/// (irradiance changed: 60, temperature changed: 28)".
std::string setups_sentence(const LogUse& use, const Record& record);

/// "no reading of set-ups 'before 1' to 'before 4' counts: all 672 of their logs are left out
/// (irradiance changed: 672)", with the mend; empty where each set-up from a log has one.
std::string emptied_setups_sentence(const Record& record);

/// By what rule readings were left out as not steady, or that there was none.
std::string steady_sentence(const LogQuestion& question);

/// How much was read of a log, and what could not be used.
std::string tally_sentence(const LogTally& tally);

/// Steps in time inside set-ups that were not bridged; the time between set-ups is no gap.
std::string setup_gaps_sentence(const LogUse& use);

/// What a log does not tell of the set-ups that were cut out of it.
std::string_view put_up_sentence();

/// "2026-06-14 10:02:00 to 16:00:00 (UTC+02:00): 412 Wh ± 9 Wh (95 %), on average 63.0 W ± 1.4 W
/// (95 %)".
std::string session_sentence(const NamedStretch& session, const ReadingsAnswer& answer);

/// The normalised power of a session, or why there is none.
std::vector<std::string> normalised_sentences(const NamedStretch& session,
                                              const ReadingsAnswer& answer);

/// What else must be said of a session: the second panel, gaps, clipping.
std::vector<std::string> session_remarks(const NamedStretch& session, const ReadingsAnswer& answer);
/// What may be said beside that: what the ratio rests on, what the steady rule removed, the
/// counter.
std::vector<std::string> session_details(const NamedStretch& session);

}  // namespace hailwright
