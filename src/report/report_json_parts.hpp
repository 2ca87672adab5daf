#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "hailwright/report/compose.hpp"
#include "report/report_json_ledger.hpp"

// The parts of the report for machines, in the order in which a record tells them. All keys are
// always there; what is not known is null. Form: docs/schemas/report.schema.json.

namespace hailwright::json {

/// A panel as its file describes it.
Json panel(const Panel& panel, const Ledger& ledger);
/// Right from the left edge and up from the lower edge; null where it is not known.
Json position(const std::optional<Position>& at, const SourceSpan& span, const Ledger& ledger);

/// What was laid down before the test.
Json protocol(const Test& test, Ledger& ledger);

// With what the test was made.
Json tools(const Tools& tools, const Ledger& ledger);
Json launch(const Launch& launch, const Ledger& ledger);
Json speed_method(const SpeedMethod& s, const Ledger& ledger);
Json ice(const Ice& ice, const Ledger& ledger);
Json balls(const Record& record, const Ledger& ledger);
Json trials(const Record& record, const Ledger& ledger);
/// The answers to the questions of safety, as they were written.
Json safety(const Protocol& protocol, const Ledger& ledger);

/// One series: what was aimed at, what was delivered, each throw, the verdict, the evidence.
Json series(const Judged& judged, std::size_t index, Ledger& ledger);
/// Word, reasons and what answers for a series.
Json verdict(const SeriesVerdict& verdict, const Judged& judged, const Ledger& ledger);
/// What the hits of a series say about further hits; null where none counts.
Json evidence(const Judged& judged, std::size_t index, Ledger& ledger);

/// {kind, series, name} of a stage.
Json stage(StageId id, const Test& test);
/// One comparison of the power.
/// @param reader  answers to a reader's limit; nullptr: none was asked about
Json power(const PowerResult& power, const Judged& judged, const LossAnswers* reader,
           Ledger& ledger);
/// What an estimate of the loss says: loss, interval, what it was made from.
Json loss(const LossEstimate& estimate, Ledger& ledger);
Json answers(const LossAnswers& answers);
/// The set-ups that were compared and what each reading weighs.
Json comparison(const PowerModel& model, const Test& test, Ledger& ledger);
/// The uncertainty budget, row by row and as it is printed.
Json budget(const PowerResult& power, Ledger& ledger);
/// What speaks for or against a comparison, each with its numbers and its sentence.
Json notes(const PowerResult& power, const Test& test, Ledger& ledger);

/// Day, conditions, instruments, deviations, disclosure.
Json circumstances(const Test& test, const Ledger& ledger);
Json set_ups(const Test& test, const Ledger& ledger);
Json readings(const Test& test, const Ledger& ledger);
/// The logs whose rows stand among the readings, and those of sessions, each with what it came to.
Json logs(const Judged& judged, Ledger& ledger);
Json sessions(const Judged& judged, Ledger& ledger);
/// Stresses other than hail, each with its word and what was done.
Json stresses(const Judged& judged, Ledger& ledger);
/// Between which energies damage began; null where it is not known.
Json damage_bracket(const Judged& judged, Ledger& ledger);
// Measured beside the test.
Json shading(const Judged& judged, Ledger& ledger);
Json meter_sessions(const Judged& judged, Ledger& ledger);
/// What the loss looks like; null without figures of the curve.
Json loss_pattern(const Judged& judged, Ledger& ledger);
/// The looks at the panel with all that was seen.
Json looks(const Judged& judged, Ledger& ledger);
/// What was taken where nothing was stated, and what it adds.
Json assumed(const Assessment& assessment, Ledger& ledger);
/// What a watt of the panel costs; null where it cannot be told.
Json price_per_watt(const Test& test, Ledger& ledger);

/// The steps that set-ups do anew; null where they are not stated.
Json redone(const std::optional<std::vector<Redone>>& steps);
/// "14:05" from the minute of the day.
Json clock(const std::optional<int>& minute);
/// A list of words.
Json list_of(const std::vector<std::string>& words);

}  // namespace hailwright::json
