// What was tested, by whom and by which rules.
#include <fmt/format.h>

#include <algorithm>

#include "hailwright/core/contract.hpp"
#include "hailwright/core/quantity_text.hpp"
#include "hailwright/evaluate/defaults.hpp"
#include "hailwright/evaluate/price.hpp"
#include "report/check_sentences.hpp"
#include "report/judged_stages.hpp"
#include "report/judgement_delivery.hpp"
#include "report/judgement_done.hpp"
#include "report/plan_sentences.hpp"
#include "report/report_json_words.hpp"
#include "report/report_sections.hpp"
#include "report/sentences.hpp"
#include "report/shown_loss.hpp"
#include "report/stress_sentences.hpp"
#include "report/words.hpp"

namespace hailwright {

namespace {

using Lines = std::vector<std::string>;

/// "2026-06-14", "2026-06-13 to 2026-06-20": the days of shots, set-ups and looks.
std::string tested_text(const Record& record) {
  Lines days{record.date};
  for (const Setup& setup : record.setups)
    days.push_back(setup.date);
  for (const Look& look : record.looks)
    days.push_back(look.date);
  for (const StressDone& done : record.stresses)
    days.push_back(done.date);
  days.erase(std::remove(days.begin(), days.end(), ""), days.end());
  const auto [first, last] = std::minmax_element(days.begin(), days.end());
  if (*first == *last) return *first;
  return record.shots.empty() ? fmt::format("{} to {}", *first, *last)
                              : fmt::format("{} to {}; shots on {}", *first, *last, record.date);
}

template <Measured Q>
void add_rating(Lines& lines, const char* what, const std::optional<Q>& value, const char* unit,
                int decimals) {
  if (value) lines.push_back(fmt::format("{}: {}", what, in_unit(*value, unit, decimals)));
}

Lines ratings(const Panel& panel) {
  Lines lines;
  add_rating(lines, "power", panel.rated_power, "W", 0);
  add_rating(lines, "open-circuit voltage", panel.open_voltage, "V", 1);
  add_rating(lines, "short-circuit current", panel.short_current, "A", 2);
  add_rating(lines, "power per kelvin", panel.power_coefficient, "%/K", 2);
  if (lines.empty()) lines.emplace_back("not stated");
  return lines;
}

std::string size_text(const Outline& size) {
  std::string text = fmt::format("{} x {}", fixed(size.long_side.si() * 1000.0, 0),
                                 fixed(size.short_side.si() * 1000.0, 0));
  if (size.thickness) text += " x " + fixed(size.thickness->si() * 1000.0, 0);
  return text + " mm";
}

Lines construction(const Panel& panel) {
  std::string build(json::word(panel.build));
  if (panel.glass) build += ", glass of " + in_unit(*panel.glass, "mm", 1);
  Lines lines{build};
  if (panel.size) lines.push_back(size_text(*panel.size));
  if (panel.cells) {
    lines.push_back(fmt::format("{} x {} cells", panel.cells->along, panel.cells->across));
  }
  if (panel.substrings) {
    lines.push_back(counted(*panel.substrings, "substring") + " with a bypass diode each");
  }
  add_rating(lines, "weight", panel.weight, "kg", 1);
  add_rating(lines, "leads", panel.lead_length, "m", 2);
  if (!panel.connector.empty()) lines.push_back("connector: " + panel.connector);
  add_rating(lines, "may be bent, says its maker, to a radius of", panel.smallest_radius, "mm", 0);
  return lines;
}

Lines origin(const Panel& panel) {
  if (!panel.came) return {"not stated"};
  const Provenance& came = *panel.came;
  return {"bought by: " + or_unstated(came.bought_by), "from: " + or_unstated(came.from),
          "on: " + or_unstated(came.on), "condition on arrival: " + or_unstated(came.condition)};
}

Lines price(const ReportPart& part) {
  const auto& money = part.record.panel.price;
  if (!money) return {"not stated"};
  const Panel& panel = part.record.panel;
  Lines lines{money_text(*money)};
  if (panel.lowest_price && panel.highest_price) {
    lines.front() += fmt::format(" on average, from {} to {}", money_text(*panel.lowest_price),
                                 money_text(*panel.highest_price));
  }
  if (const auto watt = price_per_watt(part.test)) {
    const int decimals = power_decimals(watt->power, watt->relative_u);
    lines.push_back(fmt::format(
        "{} a watt by the measured power before the {}, {} (u {})",
        money_text({watt->value, money->currency}), part.protocol.series.empty() ? "test" : "shots",
        in_unit(watt->power, "W", decimals), percent_text(watt->relative_u, 0)));
  }
  return lines;
}

std::string units_text(const ReportPart& part) {
  const Record& record = part.record;
  std::string text = anything_struck(part.assessment) ? "one unit was struck"
                     : part.protocol.series.empty()   ? "one unit was tested, without hail"
                                                      : "one unit was tested, nothing struck it";
  if (record.control) {
    text += record.control_same_model ? ", one of the same model stood unstruck beside it"
                                      : ", one of another model stood unstruck beside it";
  }
  if (!record.siblings.empty()) {
    text += fmt::format(", compared with {} of its model",
                        counted(static_cast<int>(record.siblings.size()), "unstruck unit"));
  }
  return text + ". The results are of these alone";
}

}  // namespace

std::string report_title(const WriteUp& write_up) {
  constexpr std::size_t most_named = 3;
  const std::size_t count = write_up.judged.size();
  const bool hail = std::any_of(write_up.judged.begin(), write_up.judged.end(),
                                [](const Judged& j) { return !j.test->protocol.series.empty(); });
  const std::string test = hail ? "hail test" : "test";
  if (count > most_named) return fmt::format("{} {}s", count, test);
  Lines titles;
  for (const Judged& judged : write_up.judged)
    titles.push_back(judged.test->record.title);
  return fmt::format("{}{}: {}", capitalised(test), count > 1 ? "s" : "", fmt::join(titles, "; "));
}

namespace {

std::string what_it_is(const Protocol& protocol) {
  if (protocol.series.empty()) {
    return "a home test at the nominal figures of the levels named. Not a certification test, and "
           "not a test to the standards named, which ask for more than these figures";
  }
  return "a home test, struck at the nominal figures of the grades named. Not a certification "
         "test, "
         "and not a test to IEC 61215 or ASTM E1038, which ask for more than these figures";
}

}  // namespace

void append_about(Document& out, const ReportPart& part, const std::string& id) {
  part.section(out, "About this report", "about");
  const WriteUpNotes& notes = part.record.write_up;
  Facts facts;
  add_fact(facts, "title", {report_title(part.write_up)});
  add_fact(facts, "report", {id});
  add_fact(facts, "author", {or_unstated(notes.author)});
  add_fact(facts, "contact", {or_unstated(notes.contact)});
  add_fact(facts, "place of the test", {or_unstated(notes.place)});
  add_fact(facts, "asked for by", {or_unstated(notes.asked_by)});
  add_fact(facts, "panel received", {or_unstated(notes.received)});
  add_fact(facts, "tested", {tested_text(part.record)});
  add_fact(facts, "issued", {or_unstated(notes.issued)});
  add_fact(facts, "made with", {"hailwright " + part.write_up.version});
  add_fact(facts, "what it is", {what_it_is(part.protocol)});
  out.blocks.push_back(std::move(facts));
}

void append_item(Document& out, const ReportPart& part) {
  part.section(out, "The panel", "panel");
  const Panel& panel = part.record.panel;
  Facts facts;
  add_fact(facts, "name", {panel.name});
  add_fact(facts, "serial number", {or_unstated(part.record.serial)});
  add_fact(facts, "build", construction(panel));
  add_fact(facts, "ratings", ratings(panel));
  add_fact(facts, "where it came from", origin(panel));
  add_fact(facts, "price", price(part));
  add_fact(facts, "units", {units_text(part)});
  out.blocks.push_back(std::move(facts));
}

Ratio risk_of(const DecisionRule& rule) {
  return rule.risk.value_or(defaults::risk);
}

std::string comparison_text(const Test& test) {
  const bool hail = !test.protocol.series.empty();
  switch (test.protocol.measure.compare) {
  case Comparison::same_panel:
    return hail ? "the panel after the shots with itself before them"
                : "the panel after a stress with itself before it";
  case Comparison::control_panel:
    return hail ? "the panel with an unstruck one beside it, after the shots and before them"
                : "the panel with an untouched one beside it, after a stress and before it";
  case Comparison::sibling_panel:
    return "the struck panel with unstruck ones of its model";
  }
  fail_contract("unknown comparison");
}

namespace {

/// The rule in words, with what a wrong statement can be.
Lines rule_lines(const ReportPart& part) {
  const DecisionRule& rule = part.protocol.decide;
  Lines lines{part.protocol.series.empty()
                  ? "damaged: a new major visual defect, seen after a stress and not before"
                  : "damaged: a new major visual defect, seen after the shots and not before"};
  if (!rule.judges_power) {
    lines.emplace_back("power is not judged");
    return lines;
  }
  lines.front() += fmt::format(", or a loss of power beyond {}", limit_text(rule.limit));
  if (rule.simple) {
    lines.push_back(simple_sentence());
  } else {
    lines.push_back(fmt::format(
        "a loss is called beyond the limit where its whole interval is, within it where the whole "
        "interval is, and else undecided: each of the two is said wrongly in at most {} of 100 "
        "tests whose loss is just at the limit, as far as the stated uncertainties hold",
        plain_number(risk_of(rule).si() * 100.0, 3)));
  }
  if (rule.looks > 1) {
    lines.push_back(
        fmt::format("{} looks at the result were planned, which share that risk", rule.looks));
  }
  if (const PowerResult* p = first_estimated(part.assessment)) {
    const PowerNote* extended = find_note(*p, PowerRemark::extended);
    if (extended != nullptr) lines.push_back(note_sentence(*extended));
  }
  if (rule.see) {
    lines.push_back(fmt::format("the test was meant to show a loss of {}", limit_text(*rule.see)));
  }
  return lines;
}

Lines measuring_lines(const Test& test) {
  const MeasurementPlan& m = test.protocol.measure;
  Lines lines{comparison_text(test)};
  const auto planned = [](const std::optional<int>& n) {
    return n ? std::to_string(*n) : std::string("no number of");
  };
  if (m.before || m.after || m.readings) {
    lines.push_back(fmt::format("planned: {} set-ups before, {} after, {} readings each",
                                planned(m.before), planned(m.after), planned(m.readings)));
  }
  if (m.redone) {
    Lines steps;
    for (const Redone step : *m.redone)
      steps.emplace_back(json::word(step));
    lines.push_back("done anew in each set-up: " + (steps.empty() ? "nothing" : enumerate(steps)));
  }
  if (m.meters) {
    lines.push_back(*m.meters == 1 ? "one meter: panels are read in turn"
                                   : fmt::format("{} meters", *m.meters));
  }
  if (m.maximum_power) {
    lines.push_back(fmt::format("load: {}{}", m.load.empty() ? "" : m.load + ", ",
                                json::word(*m.maximum_power)));
  }
  return lines;
}

Lines series_lines(const Protocol& protocol) {
  Lines lines;
  for (const SeriesPlan& series : protocol.series) {
    lines.push_back(fmt::format("{}: {} on {}", series.name, target_text(series.target),
                                counted(static_cast<int>(series.places.size()), "place")));
  }
  return lines;
}

Lines stress_lines(const Protocol& protocol) {
  Lines lines;
  for (const StressPlan& stress : protocol.stresses)
    lines.push_back(stress_text(stress));
  return lines;
}

}  // namespace

void append_method(Document& out, const ReportPart& part) {
  part.section(out, "Method, and what was done otherwise", "method");
  Facts facts;
  add_fact(facts, "protocol", {part.protocol.title, "mark " + text(part.protocol.mark)});
  add_fact(facts, "set before the test", {plan_kept_sentence(part.test)});
  add_fact(facts, "series", series_lines(part.protocol));
  add_fact(facts, "other stresses", stress_lines(part.protocol));
  add_fact(facts, "decision rule", rule_lines(part));
  add_fact(facts, "comparison of power", measuring_lines(part.test));
  const Lines& unlike = part.record.unlike_protocol;
  add_fact(facts, "unlike the protocol", unlike.empty() ? Lines{"nothing stated"} : unlike);
  out.blocks.push_back(std::move(facts));
}

}  // namespace hailwright
