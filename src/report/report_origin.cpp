// How to judge again, and what the numbers rest on.
#include <fmt/format.h>

#include <algorithm>
#include <set>
#include <span>
#include <utility>

#include "hailwright/model/findings.hpp"
#include "hailwright/tables/hailstones.hpp"
#include "report/judged_stages.hpp"
#include "report/method_sources.hpp"
#include "report/report_sections.hpp"
#include "report/sentences.hpp"
#include "report/words.hpp"

namespace hailwright {

namespace {

/// A word of a command line for a POSIX shell.
std::string shell_word(const std::string& text) {
  const auto harmless = [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') ||
           std::string_view("/._-+,").find(c) != std::string_view::npos;
  };
  if (!text.empty() && std::all_of(text.begin(), text.end(), harmless)) return text;
  std::string quoted = "'";
  for (const char c : text)
    quoted += c == '\'' ? std::string("'\\''") : std::string(1, c);
  return quoted + "'";
}

/// Where the file of a record lies beside the report; as it was named where it was not copied.
std::string copied_path(const WriteUp& write_up, const Record& record) {
  const std::string name =
      record.origin.file > 0 ? write_up.sources->name(record.origin.file) : "record.yaml";
  const auto copy = std::find_if(write_up.inputs.begin(), write_up.inputs.end(),
                                 [&](const InputCopy& input) { return input.name == name; });
  return copy == write_up.inputs.end() ? name : copy->path;
}

/// The options that make the same random trials, where they are not the usual ones.
std::string trial_options(const WriteUp& write_up) {
  const CheckPlan usual;
  for (const Judged& judged : write_up.judged) {
    for (const PowerResult& p : judged.assessment->power) {
      if (!p.estimated()) continue;
      if (!p.check) return " --trials 0";
      std::string options;
      if (p.check->adaptive) {
        options = " --trials adaptive";
      } else if (p.check->trials != usual.trials) {
        options = fmt::format(" --trials {}", p.check->trials);
      }
      if (p.check->seed != usual.seed) options += fmt::format(" --seed {}", p.check->seed);
      return options;
    }
  }
  return "";
}

std::string judge_line(const WriteUp& write_up) {
  std::string line = "hailwright judge";
  for (const Judged& judged : write_up.judged)
    line += ' ' + shell_word(copied_path(write_up, judged.test->record));
  const ReaderLimit* reader = write_up.judged.front().reader_limit;
  if (reader != nullptr) line += fmt::format(" --limit {}", shell_word(limit_text(reader->limit)));
  return line + trial_options(write_up);
}

}  // namespace

void append_judge_again(Document& out, const WriteUp& write_up, int level) {
  out.blocks.push_back(Heading{level, plain("Judge it again"), "judge-again"});
  out.blocks.push_back(Paragraph{plain(fmt::format(
      "All of the above follows from the files below and from hailwright {}. In the folder of this "
      "report:",
      write_up.version))});
  out.blocks.push_back(Snippet{{"sha256sum -c checksums.txt", judge_line(write_up)}});
  Table table{"Files that the judgement was made from",
              {{"file"}, {"bytes", Align::right}, {"SHA-256"}},
              {}};
  for (const InputCopy& input : write_up.inputs)
    table.rows.push_back({input.path, std::to_string(input.bytes), input.sha256});
  out.blocks.push_back(std::move(table));
  Runs files{{"The same for machines: "},
             {"report.json", Tone::plain, "report.json"},
             {", "},
             {"report.xlsx", Tone::plain, "report.xlsx"}};
  for (const DataTable& data : report_tables(write_up)) {
    const std::string file = data.name + ".csv";
    files.push_back({", "});
    files.push_back({file, Tone::plain, file});
  }
  files.push_back({"."});
  out.blocks.push_back(Paragraph{std::move(files)});
}

namespace {

/// Collects the ids that the numbers of the judged records name.
class UsedIds {
public:
  explicit UsedIds(const std::vector<Judged>& judged) {
    for (const Judged& j : judged) {
      add_shots(*j.test, *j.assessment);
      add_looks(j.test->record);
      add_stresses(*j.test);
      add_beside(*j.assessment);
      for (const PowerResult* p : all_stages(*j.assessment))
        add_power(*p);
      if (!j.test->record.readings.empty())
        ids_.insert({"method-normalised-power", "method-instruments-and-scopes"});
      if (j.test->protocol.measure.compare != Comparison::same_panel)
        ids_.insert("method-control-and-siblings");
    }
  }
  [[nodiscard]] bool has(std::string_view id) const { return ids_.contains(id); }

private:
  void add_aim(const SeriesPlan& series) {
    if (const Grade* grade = series.target.grade) {
      ids_.insert(grade->citation);
      if (grade->scheme == "IEC 61215") ids_.insert("iec61215-mqt17-tolerance");
    }
    if (std::any_of(series.places.begin(), series.places.end(),
                    [](const Place& place) { return place.found; })) {
      ids_.insert("method-places");
    }
  }

  void add_shots(const Test& test, const Assessment& a) {
    for (const SeriesPlan& series : test.protocol.series)
      add_aim(series);
    for (const SeriesDelivery& d : a.delivery) {
      if (d.hits > 0) ids_.insert("method-shot-strength");
      if (!d.at_least || d.at_least->si() <= 0.0) continue;
      for (const FallSpeedFit& fit : fall_speed_fits())
        ids_.insert(fit.citation);
      ids_.insert({"crc-ice-density", "nws-hail-sizes"});
    }
    if (!a.evidence.empty()) ids_.insert("method-hit-evidence");
  }

  void add_stresses(const Test& test) {
    for (const StressDone& done : test.record.stresses) {
      ids_.insert({"method-stresses", "method-shot-strength"});
      const StressPlan& plan = test.protocol.stresses.at(done.stress);
      if (plan.level != nullptr) ids_.insert(plan.level->source);
    }
  }

  void add_beside(const Assessment& a) {
    if (a.bracket) ids_.insert({"method-threshold", "method-shot-strength"});
    if (a.pattern) ids_.insert("method-loss-pattern");
    if (!a.shading.empty())
      ids_.insert({"method-partial-shading", "method-instruments-and-scopes"});
    if (!a.energy.empty())
      ids_.insert({"method-sessions-by-meter", "method-instruments-and-scopes"});
  }

  void add_looks(const Record& record) {
    for (const Look& look : record.looks) {
      if (look.saw.empty()) continue;
      for (const Citation& c : finding_sources())
        ids_.insert(c.id);
    }
  }

  void add_power(const PowerResult& p) {
    if (!p.estimated()) return;
    ids_.insert({"method-measuring-conditions", "method-setup-scatter",
                 "method-interval-and-decision", "method-smallest-loss", "method-outlying-readings",
                 "method-looks-and-extension"});
    if (p.model->drift_taken_out() || p.model->trend) ids_.insert("method-drift");
    if (p.check) ids_.insert("method-random-trials");
  }

  std::set<std::string_view> ids_;
};

/// A note of where something was read, with each web address in it a link.
Runs with_addresses(std::string_view read_at) {
  Runs line;
  while (!read_at.empty()) {
    const std::size_t start = std::min(read_at.find("https://"), read_at.size());
    if (start > 0) line.push_back({std::string(read_at.substr(0, start))});
    read_at.remove_prefix(start);
    const std::string address(read_at.substr(0, read_at.find_first_of(" ,;)")));
    if (!address.empty()) line.push_back({address, Tone::plain, address});
    read_at.remove_prefix(address.size());
  }
  return line;
}

/// A note without the pages of our documentation that it begins with: they do not lie beside a
/// report.
std::string_view note_for_readers(std::string_view note) {
  if (!note.starts_with("docs/")) return note;
  const std::size_t end = note.find("; ");
  return end == std::string_view::npos ? std::string_view() : note.substr(end + 2);
}

/// "Title (read: https://...). Note."
Runs source_line(const Citation& c) {
  Runs line{{fmt::format("{} ({}", capitalised(std::string(c.title)), text(c.status))}};
  if (!c.read_at.empty()) {
    line.push_back({": "});
    for (Run& run : with_addresses(c.read_at))
      line.push_back(std::move(run));
  }
  line.push_back({")."});
  const std::string note = capitalised(std::string(note_for_readers(c.note)));
  if (!note.empty()) line.push_back({" " + note + (note.ends_with('.') ? "" : ".")});
  return line;
}

}  // namespace

std::vector<const Citation*> sources_used(const std::vector<Judged>& judged) {
  const UsedIds used(judged);
  std::vector<const Citation*> sources;
  for (const auto& list :
       {impact_grade_sources(), hailstone_sources(), std::span<const Citation>(finding_sources()),
        method_sources(), stress_sources()}) {
    for (const Citation& c : list) {
      if (used.has(c.id)) sources.push_back(&c);
    }
  }
  return sources;
}

void append_rests_on(Document& out, const WriteUp& write_up, int level) {
  out.blocks.push_back(Heading{level, plain("What the numbers rest on"), "sources"});
  out.blocks.push_back(Paragraph{plain(
      "\"read\" means that the page named was read; it is often a secondary one. Paid standards "
      "were not read themselves. Values taken where nothing was stated are listed with what was "
      "assumed, and each caution names its own source.")});
  Bullets list;
  for (const Citation* source : sources_used(write_up.judged))
    list.items.push_back(source_line(*source));
  out.blocks.push_back(std::move(list));
}

}  // namespace hailwright
