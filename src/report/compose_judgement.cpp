#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>

#include "hailwright/core/quantity_text.hpp"
#include "hailwright/physics/impact.hpp"
#include "hailwright/report/compose.hpp"
#include "hailwright/tables/hailstones.hpp"
#include "report/caution_items.hpp"
#include "report/judgement_power.hpp"
#include "report/plan_sentences.hpp"
#include "report/sentences.hpp"
#include "report/words.hpp"

namespace hailwright {

namespace {

std::string joule(Energy e) {
  return in_unit(e.si(), "J", e.si() < 10.0 ? 2 : 1);
}

class JudgementWriter {
public:
  JudgementWriter(const Judged& judged, const SourceSet& sources, Document& out)
      : test_(*judged.test), a_(*judged.assessment), sources_(sources), out_(out) {}

  void write() {
    out_.blocks.push_back(Heading{1, plain(test_.record.title)});
    out_.blocks.push_back(Paragraph{{{headline(test_, a_), Tone::strong}}});
    verdicts();
    delivered();
    changed();
    seen();
    append_budget(out_, a_, test_);
    assumed();
    as_it_was_done();
  }

private:
  void heading(const char* text) { out_.blocks.push_back(Heading{2, plain(text)}); }

  void verdicts() {
    Facts facts;
    for (const SeriesVerdict& v : a_.verdicts) {
      const SeriesPlan& plan = test_.protocol.series[v.series];
      Fact fact{plan.name, {}};
      fact.lines.push_back({{std::string(word_text(v.word)), word_tone(v.word)},
                            {fmt::format(" ({})", target_text(plan.target)), Tone::plain}});
      if (v.word == Word::not_reached) {
        fact.lines.push_back(plain(delivered_sentence(a_.delivery[v.series], v, a_)));
      }
      for (const SeriesReason& r : v.reasons) {
        fact.lines.push_back(
            plain(reason_sentence(r, v, test_, a_) + place_text(sources_, r.where)));
      }
      if (v.damage_by) {
        fact.lines.push_back(plain(damage_sentence(*v.damage_by)));
        fact.lines.push_back(plain(delivered_sentence(a_.delivery[v.series], v, a_)));
      }
      facts.items.push_back(std::move(fact));
    }
    out_.blocks.push_back(std::move(facts));
  }

  void delivered() {
    heading("What was delivered");
    Facts facts;
    for (const SeriesDelivery& d : a_.delivery) {
      Fact fact{test_.protocol.series[d.series].name, {}};
      for (std::string& line : delivery_lines(d))
        fact.lines.push_back(plain(std::move(line)));
      facts.items.push_back(std::move(fact));
    }
    out_.blocks.push_back(std::move(facts));
  }

  [[nodiscard]] std::vector<std::string> delivery_lines(const SeriesDelivery& d) const {
    const Target& target = test_.protocol.series[d.series].target;
    std::vector<std::string> lines;
    lines.push_back(
        fmt::format("{}: {} on a place, {} elsewhere on the panel, {}, {} broke before it",
                    counted(d.throws, "throw"), d.hits - d.off_places, d.off_places,
                    counted(d.misses, "miss"), d.broken));
    lines.push_back(fmt::format("{} of {} hit (within {} of the middle), {} at least at the grade",
                                d.places_hit, counted(static_cast<int>(d.places.size()), "place"),
                                in_unit(d.place_radius.si(), "mm", 0), d.places_struck));
    add_energy_lines(d, target, lines);
    if (d.trials) {
      lines.push_back(fmt::format(
          "speed from {}: {} with {} scatter, {} at the panel; the grade says {}",
          counted(d.trials->n, "trial"), in_unit(d.trials->mean.si(), "m/s", 1),
          percent_text(Ratio::from_si(d.trials->scatter)),
          in_unit(d.trial_speed_at_panel->si(), "m/s", 1), in_unit(target.speed.si(), "m/s", 1)));
    }
    if (d.joint_probability) {
      lines.push_back(fmt::format("all places truly struck at least at the grade: {} sure",
                                  sure_text(*d.joint_probability)));
    }
    add_angles(d, lines);
    add_doubts(d, lines);
    return lines;
  }

  static std::string sure_text(double probability) {
    const double whole = std::round(probability * 100.0);
    if (whole >= 100.0) return "over 99 %";
    if (whole < 1.0) return "less than 1 %";
    return fixed(whole, 0) + " %";
  }

  static void add_energy_lines(const SeriesDelivery& d, const Target& target,
                               std::vector<std::string>& lines) {
    if (!d.at_least) return;
    const Energy nominal = kinetic_energy({target.mass}, {target.speed}).value;
    const double t = d.tolerance.si();
    lines.push_back(fmt::format(
        "{}at least {} each (95 %); the grade is {}, its box {} to {}",
        d.places_with_energy < d.places_hit ? fmt::format("{} of them ", d.places_with_energy) : "",
        joule(*d.at_least), joule(nominal), joule(nominal * std::pow(1.0 - t, 3)),
        joule(nominal * std::pow(1.0 + t, 3))));
    if (d.at_least->si() <= 0.0) return;
    const HailstoneRange stone = equal_energy_hailstones(*d.at_least);
    lines.push_back(
        fmt::format("the energy of a freely falling hailstone of {} to {} mm, about {} size",
                    fixed(stone.smallest.si() * 1000.0, 0), fixed(stone.largest.si() * 1000.0, 0),
                    nearest_size_name(0.5 * (stone.smallest + stone.largest)).name));
  }

  void add_angles(const SeriesDelivery& d, std::vector<std::string>& lines) const {
    double largest_deg = 0.0;
    for (const ShotResult& r : d.shots) {
      const auto& angle = test_.record.shots[r.shot].angle;
      if (r.on_panel && angle) {
        largest_deg = std::max(largest_deg, angle->si() * 180.0 / std::numbers::pi);
      }
    }
    if (largest_deg > 0.0) {
      lines.push_back(fmt::format("hits up to {} deg from straight on: speed and energy are those "
                                  "along the normal of the panel",
                                  fixed(largest_deg, 0)));
    }
  }

  void add_doubts(const SeriesDelivery& d, std::vector<std::string>& lines) const {
    std::map<StrengthDoubt, std::vector<std::string>> doubts;
    int perhaps_harder = 0;
    for (const ShotResult& r : d.shots) {
      if (!r.on_panel) continue;
      if (r.place && r.doubt != StrengthDoubt::none) {
        doubts[r.doubt].push_back(fmt::format("{}", test_.record.shots[r.shot].number));
      }
      if (!r.sides.not_stronger) ++perhaps_harder;
    }
    for (const auto& [doubt, shots] : doubts) {
      lines.push_back(fmt::format("throw {}: {}", enumerate(shots), doubt_text(doubt)));
    }
    if (perhaps_harder > 0) {
      lines.push_back(fmt::format(
          "{} of {} may have been harder than the grade{}", perhaps_harder, counted(d.hits, "hit"),
          a_.verdicts[d.series].word == Word::withstood ? ", which does not weaken \"withstood\""
                                                        : ""));
    }
  }

  void changed() {
    heading("What changed");
    Facts facts;
    for (const PowerResult& p : a_.power)
      append_power_facts(facts, p, test_, sources_);
    for (const PowerResult& p : a_.later_power)
      append_power_facts(facts, p, test_, sources_);
    Fact looks{"looks", {}};
    for (std::string& line : look_lines())
      looks.lines.push_back(plain(std::move(line)));
    facts.items.push_back(std::move(looks));
    out_.blocks.push_back(std::move(facts));
  }

  [[nodiscard]] std::vector<std::string> look_lines() const {
    std::vector<std::string> lines;
    const Record& record = test_.record;
    if (record.looks.empty()) return {"nobody looked"};
    for (std::size_t i = 0; i < record.looks.size(); ++i) {
      const Look& look = record.looks[i];
      std::vector<std::string> things;
      for (const Finding& f : look.saw)
        things.push_back(finding_text(f, i));
      lines.push_back(
          fmt::format("{}{}: {}", when_looked(look),
                      look.date.empty() || look.date == record.date ? "" : ", " + look.date,
                      things.empty() ? "nothing seen" : enumerate(things)));
    }
    return lines;
  }

  [[nodiscard]] std::string when_looked(const Look& look) const {
    if (look.start) return "before the shots";
    const std::string& series = test_.protocol.series[look.after].name;
    if (look.after_throw) return fmt::format("after throw {} ({})", *look.after_throw, series);
    return "after " + series;
  }

  [[nodiscard]] std::string finding_text(const Finding& f, std::size_t look) const {
    const auto found = std::find_if(a_.new_findings.begin(), a_.new_findings.end(),
                                    [&](const NewFinding& n) { return n.finding == &f; });
    std::string standing = record_starts(look) ? "there from the start" : "seen before";
    if (found != a_.new_findings.end()) {
      const std::string since = looked_at_start() ? "new, " : "whether it is new is not known; ";
      standing = found->major       ? since + "a major defect"
                 : found->undecided ? "it cannot be told whether it is a new major defect"
                                    : since + "not a major defect";
    }
    return fmt::format("{} ({}; {})", f.kind->word, f.where, standing);
  }

  [[nodiscard]] bool looked_at_start() const {
    return std::any_of(test_.record.looks.begin(), test_.record.looks.end(),
                       [](const Look& l) { return l.start; });
  }

  [[nodiscard]] bool record_starts(std::size_t look) const {
    return test_.record.looks[look].start;
  }

  void seen() {
    Facts facts;
    append_detection_facts(facts, a_, test_);
    for (const HitEvidence& e : a_.evidence) {
      facts.items.push_back({test_.protocol.series[e.series].name, {plain(evidence_sentence(e))}});
    }
    if (facts.items.empty()) return;
    heading("What this test could have seen");
    out_.blocks.push_back(std::move(facts));
  }

  void assumed() {
    if (a_.assumed.empty()) return;
    heading("Assumed for you");
    Bullets list;
    std::vector<AssumedEffect> sorted = a_.assumed;
    std::stable_sort(sorted.begin(), sorted.end(), [](const auto& x, const auto& y) {
      return x.on_loss.value_or(PercentagePoints::of(-1.0)) >
             y.on_loss.value_or(PercentagePoints::of(-1.0));
    });
    for (const AssumedEffect& e : sorted) {
      const DefaultRow& row = default_row(e.id);
      std::string adds;
      if (e.on_loss) {
        adds = fmt::format("; adds {} points to u of the loss", fixed(e.on_loss->points(), 2));
      } else if (e.on_energy) {
        adds = fmt::format("; adds {} to u of an energy", percent_text(*e.on_energy));
      }
      list.items.push_back(plain(
          fmt::format("{}: {}{}. Write instead: {}", row.what, row.taken, adds, row.replace)));
    }
    out_.blocks.push_back(std::move(list));
    out_.blocks.push_back(Paragraph{plain(
        "u is the standard uncertainty, points are percentage points. Where nothing is added, "
        "the value decides how an answer is read.")});
  }

  void as_it_was_done() {
    Facts facts;
    const Record& r = test_.record;
    const auto list = [&](const char* label, const std::vector<std::string>& items) {
      Fact fact{label, {}};
      for (const std::string& item : items)
        fact.lines.push_back(plain(item));
      if (!items.empty()) facts.items.push_back(std::move(fact));
    };
    list("unlike protocol", r.unlike_protocol);
    list("incidents", r.incidents);
    std::vector<std::string> skipped;
    for (const Reading& reading : r.readings) {
      if (reading.skip.empty()) continue;
      skipped.push_back(fmt::format(
          "reading of {}, '{}': {}{}",
          (reading.role == Role::sibling ? "" : "the ") + panel_text(reading, r),
          r.setups[reading.setup].name, reading.skip, place_text(sources_, reading.origin)));
    }
    list("left out", skipped);
    if (r.disclosure) {
      list("who",
           {fmt::format("bought by {}; interests: {}; the panel goes: {}",
                        or_unstated(r.disclosure->bought_by), or_unstated(r.disclosure->interests),
                        or_unstated(r.disclosure->panel_goes))});
    }
    list("plan", {plan_kept_sentence(test_)});
    if (facts.items.empty()) return;
    heading("As it was done");
    out_.blocks.push_back(std::move(facts));
  }

  static std::string or_unstated(const std::string& s) { return s.empty() ? "not stated" : s; }

  const Test& test_;
  const Assessment& a_;
  const SourceSet& sources_;
  Document& out_;
};

}  // namespace

Document compose_judgement(const std::vector<Judged>& judged, const SourceSet& sources) {
  Document out;
  std::vector<const Caution*> cautions;
  for (const Judged& j : judged) {
    JudgementWriter(j, sources, out).write();
    for (const Caution* c : j.assessment->cautions) {
      if (std::find(cautions.begin(), cautions.end(), c) == cautions.end()) cautions.push_back(c);
    }
  }
  append_cautions(out, std::move(cautions));
  out.blocks.push_back(Paragraph{plain(std::string(closing_sentence()))});
  return out;
}

}  // namespace hailwright
