#include "report/log_use_sentences.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "hailwright/core/contract.hpp"
#include "report/readings_clock.hpp"
#include "report/readings_sentences.hpp"
#include "report/setup_notes.hpp"
#include "report/skipped_readings.hpp"
#include "report/words.hpp"

namespace hailwright {

namespace {

std::string_view cut_words(LogCut::Kind kind) {
  switch (kind) {
  case LogCut::Kind::whole:
    return "not cut";
  case LogCut::Kind::times:
    return "cut by the times in the record";
  case LogCut::Kind::markers:
    return "cut by the markers in the log";
  case LogCut::Kind::plateaus:
    return "cut where the load went on and off";
  }
  fail_contract("unknown cut");
}

bool is_of(const LogUse& use, std::size_t setup) {
  return std::find(use.setups.begin(), use.setups.end(), setup) != use.setups.end();
}

std::int64_t rows_of(const LogUse& use) {
  std::int64_t rows = 0;
  for (const LogStretch& s : use.findings.stretches)
    rows += s.rows;
  return rows;
}

/// Readings of one reason together, in the order met.
void add_reason(std::vector<SkippedReadings>& reasons, const SkippedReadings& s) {
  const auto same = std::find_if(reasons.begin(), reasons.end(),
                                 [&](const SkippedReadings& r) { return r.reason == s.reason; });
  if (same == reasons.end()) {
    reasons.push_back(s);
  } else {
    same->count += s.count;
  }
}

/// "irradiance changed: 60, temperature changed: 28"
std::string reasons_text(const std::vector<SkippedReadings>& reasons) {
  std::vector<std::string> texts;
  for (const SkippedReadings& s : reasons)
    texts.push_back(fmt::format("{}: {}", s.reason, s.count));
  return fmt::format("{}", fmt::join(texts, ", "));
}

/// Reasons with their readings over all set-ups of a log.
std::vector<SkippedReadings> left_out_of(const LogUse& use, const Record& record) {
  std::vector<SkippedReadings> reasons;
  for (const SkippedReadings& s : skipped_of_logs(record)) {
    if (is_of(use, s.setup)) add_reason(reasons, s);
  }
  return reasons;
}

/// The limits alone: windows are longer in a slow log.
bool is_ours(const SteadyRule& r) {
  const SteadyRule ours;
  return r.irradiance_change == ours.irradiance_change && r.ramp == ours.ramp &&
         r.temperature_change == ours.temperature_change;
}

/// When a session was looked for; nothing where it was not cut by times.
const LogSpan* span_of(const LogStretch& session, const ReadingsAnswer& a) {
  const auto& spans = a.question.cut.spans;
  const auto span = std::find_if(spans.begin(), spans.end(),
                                 [&](const LogSpan& s) { return s.name == session.name; });
  return span == spans.end() ? nullptr : &*span;
}

std::string no_rows_sentence(const LogStretch& session, const ReadingsAnswer& a) {
  const LogSpan* span = span_of(session, a);
  if (span == nullptr) return "no rows in the log";
  return fmt::format("no rows from {} ({}): check the day of its times, and the zone",
                     span_text(span->from_us, span->to_us, a.stated.zone),
                     zone_text(span->from_us, span->to_us, a.stated.zone));
}

}  // namespace

std::string setups_sentence(const LogUse& use, const Record& record) {
  const auto readings =
      std::count_if(record.readings.begin(), record.readings.end(),
                    [&](const Reading& r) { return r.skip.empty() && is_of(use, r.setup); });
  const std::vector<SkippedReadings> reasons = left_out_of(use, record);
  int left_out = 0;
  for (const SkippedReadings& s : reasons)
    left_out += s.count;
  std::string text = fmt::format(
      "{} with {}, {}: {} {}", counted(static_cast<int>(use.setups.size()), "set-up"),
      counted_rows(rows_of(use)), cut_words(use.question.cut.kind),
      counted(static_cast<int>(readings), "reading"), readings == 1 ? "counts" : "count");
  if (left_out == 0) return text + ", none is left out";
  return fmt::format("{}, {} {} left out ({})", text, left_out, left_out == 1 ? "is" : "are",
                     reasons_text(reasons));
}

std::string emptied_setups_sentence(const Record& record) {
  const std::vector<bool> from_log = setups_from_logs(record);
  std::vector<int> counting(record.setups.size());
  for (const Reading& r : record.readings)
    counting[r.setup] += r.skip.empty() ? 1 : 0;
  std::vector<std::string> names;
  std::vector<SkippedReadings> reasons;
  int left_out = 0;
  for (std::size_t i = 0; i < record.setups.size(); ++i) {
    if (from_log[i] && counting[i] == 0) names.push_back(record.setups[i].name);
  }
  if (names.empty()) return {};
  for (const SkippedReadings& s : skipped_of_logs(record)) {
    if (counting[s.setup] > 0) continue;
    add_reason(reasons, s);
    left_out += s.count;
  }
  return fmt::format("no reading of {} counts: all {} of their logs are left out ({}). Where the "
                     "steady rule left them out, state under the log what is steady enough here "
                     "(steady: {{window: ..., irradiance_change: ...}}), or take such set-ups anew",
                     setups_text(names), left_out, reasons_text(reasons));
}

std::string steady_sentence(const LogQuestion& question) {
  const std::optional<SteadyRule>& rule = question.rules.steady;
  if (!rule) return "steady rule: none; no row was left out as not steady";
  return fmt::format("steady rule: {}{}", steady_rule_text(*rule),
                     is_ours(*rule) ? ". These limits are this tool's own, which hold where a "
                                      "record states no others"
                                    : "");
}

std::string tally_sentence(const LogTally& tally) {
  const bool all = tally.unreadable + tally.out_of_order == 0;
  return fmt::format("{}; {}", read_sentence(tally),
                     all ? "every row could be read and stands in order" : unused_sentence(tally));
}

std::string setup_gaps_sentence(const LogUse& use) {
  const std::string limit = duration_text(use.question.rules.longest_gap.si());
  std::int64_t gaps = 0;
  double seconds = 0.0;
  for (const LogStretch& s : use.findings.stretches) {
    gaps += s.gaps;
    seconds += s.in_gaps_s;
  }
  if (gaps == 0) return fmt::format("no step in time inside a set-up is longer than {}", limit);
  return fmt::format("{} inside the set-ups longer than {}, {} together",
                     gaps == 1 ? "1 step in time" : fmt::format("{} steps in time", gaps), limit,
                     duration_text(seconds));
}

std::string_view put_up_sentence() {
  return "A log cannot tell whether the panel was put up anew between two set-ups: that it was is "
         "what the record says.";
}

std::string session_sentence(const NamedStretch& session, const ReadingsAnswer& a) {
  const LogStretch& s = session.stretch;
  if (s.rows == 0) return no_rows_sentence(session.stretch, a);
  const std::string zone = zone_text(s.from_us, s.to_us, a.stated.zone);
  std::string text = fmt::format("{} ({}): ", span_text(s.from_us, s.to_us, a.stated.zone), zone);
  const StretchNumbers& n = session.numbers;
  if (!n.energy || !n.mean_power) {
    return text + no_energy_sentence(s, a.question.rules.longest_gap);
  }
  return text + fmt::format("{}, on average {}", number_text(*n.energy, "Wh"),
                            number_text(*n.mean_power, "W"));
}

std::vector<std::string> normalised_sentences(const NamedStretch& session,
                                              const ReadingsAnswer& a) {
  const LogStretch& s = session.stretch;
  const StretchNumbers& n = session.numbers;
  if (s.rows == 0) return {};
  if (!n.normalised || !s.normalised) return {"no normalised power: " + why_not_normalised(a)};
  std::vector<std::string> lines{fmt::format("at 1000 W/m2 and 25 degC {}; {}",
                                             number_text(*n.normalised, "W"),
                                             worth_sentence(*s.normalised))};
  if (auto few = few_readings_sentence(n.normalised->scatter, *s.normalised); !few.empty())
    lines.push_back(std::move(few));
  if (n.normalised_beside)
    lines.push_back("the second panel " + number_text(*n.normalised_beside, "W"));
  return lines;
}

std::vector<std::string> session_remarks(const NamedStretch& session, const ReadingsAnswer& a) {
  const LogStretch& s = session.stretch;
  std::vector<std::string> lines;
  if (s.rows == 0) return lines;
  if (session.numbers.ratio)
    lines.push_back("second panel over first " + ratio_text(*session.numbers.ratio));
  if (s.gaps > 0) lines.push_back(gaps_sentence(s, a.question.rules.longest_gap));
  if (s.clipping) lines.push_back(clipping_sentence(*s.clipping, ""));
  if (s.clipping_beside)
    lines.push_back(clipping_sentence(*s.clipping_beside, " of the second panel"));
  return lines;
}

std::vector<std::string> session_details(const NamedStretch& session) {
  const LogStretch& s = session.stretch;
  const StretchNumbers& n = session.numbers;
  std::vector<std::string> lines;
  if (s.rows == 0) return lines;
  if (n.ratio && s.beside) lines.push_back(ratio_sentence(*n.ratio, *s.beside));
  if (s.steady) lines.push_back(removed_sentence(*s.steady));
  if (s.counter) lines.push_back(counter_sentence(s, n));
  return lines;
}

}  // namespace hailwright
