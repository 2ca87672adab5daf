#include <fmt/format.h>

#include <algorithm>

#include "hailwright/core/quantity_text.hpp"
#include "hailwright/report/compose_readings.hpp"
#include "logs/log_layout.hpp"
#include "report/log_picture_data.hpp"
#include "report/readings_sentences.hpp"
#include "report/readings_yaml_text.hpp"
#include "report/words.hpp"

namespace hailwright {

namespace {

std::string_view word_of(char mark) {
  switch (mark) {
  case ';':
    return "semicolon";
  case '\t':
    return "tab";
  case '.':
    return "point";
  default:
    return "comma";
  }
}

/// In all digits that the value has.
std::string amount(double si, Measure measure, std::string_view unit) {
  return fmt::format("{} {}", number_in(si, *find_unit(unit, measure)), unit);
}
template <class Q>
std::string amount(Q q, std::string_view unit) {
  return amount(q.si(), MeasureOf<Q>::value, unit);
}

class Writer {
public:
  explicit Writer(const ReadingsAnswer& a) : a_(a) {}

  std::vector<std::string> write() {
    if (found_nothing()) {
      return {"# No block: no stretch with the load on was found, and without its times a record",
              "# would take the log as a whole."};
    }
    second_log();
    lines_.push_back(fmt::format("{}:", key_of(a_.place)));
    files();
    format();
    rules();
    cut();
    return std::move(lines_);
  }

private:
  [[nodiscard]] bool sessions() const { return a_.place == LogPlace::sessions; }

  [[nodiscard]] bool found_nothing() const {
    return a_.question.cut.kind == LogCut::Kind::plateaus &&
           std::none_of(a_.findings.stretches.begin(), a_.findings.stretches.end(),
                        [](const LogStretch& s) { return s.rows > 0; });
  }

  /// A record reads one log at a time.
  void second_log() {
    for (const std::string& file : a_.files_beside)
      lines_.push_back(fmt::format("# Left out: the second log, {}. A record reads a second panel "
                                   "from columns of the same log.",
                                   yaml_text(file)));
  }

  void put(std::string_view key, std::string_view value) {
    lines_.push_back(fmt::format("  {}: {}", key, value));
  }

  /// A record cannot read from standard input: which file it was is left to fill in.
  static std::string path(const std::string& file) { return file == "-" ? "???" : yaml_text(file); }

  void files() {
    if (a_.files.size() == 1) {
      put("log", path(a_.files.front()));
      return;
    }
    std::string list;
    for (const std::string& file : a_.files)
      list += (list.empty() ? "" : ", ") + path(file);
    put("log", '[' + list + ']');
  }

  /// As it was recognised, so that the record does not depend on recognising it again.
  void format() {
    if (!a_.shape.used.empty()) lines_.push_back("  columns:");
    for (const LogColumn& c : a_.shape.used) {
      const std::string name = yaml_text(c.header);
      lines_.push_back(c.unit.symbol.empty()
                           ? fmt::format("    {}: {}", hailwright::word_of(c.role), name)
                           : fmt::format("    {}: {{name: {}, unit: {}}}",
                                         hailwright::word_of(c.role), name,
                                         yaml_text(c.unit.symbol)));
    }
    put("separator", word_of(a_.shape.separator));
    put("decimal", word_of(a_.shape.decimal));
    if (a_.shape.stamp.kind == StampForm::Kind::calendar) {
      put("dates", detail::date_order_word(a_.shape.stamp.dates));
    }
    // Under `before` and `after` a zone is wanted, for the times of day of the readings.
    if (!a_.stated.zone.empty() || !sessions()) {
      put("zone", yaml_text(a_.stated.zone.empty() ? "UTC" : a_.stated.zone));
    }
  }

  void rules() {
    const StretchRules& r = a_.question.rules;
    put("longest_gap", amount(r.longest_gap, "s"));
    const std::int64_t unused = a_.tally.unreadable + a_.tally.out_of_order;
    if (unused > 0) put("tolerate", std::to_string(unused));
    put("load_on", amount(r.load_on, "W"));
    if (r.counter_wraps_at) put("wraps_at", amount(*r.counter_wraps_at, "Wh"));
    if (!r.steady) {
      put("steady", "no");
      return;
    }
    put("steady",
        fmt::format("{{window: {}, irradiance_change: {}, ramp: {}, temperature_change: {}}}",
                    amount(r.steady->window, "s"), amount(r.steady->irradiance_change, "%"),
                    amount(r.steady->ramp, "%"), amount(r.steady->temperature_change, "K")));
  }

  /// Stretches that were found by plateaus stand here by their times: the record then has the cut
  /// that was looked at, whatever the rule finds later.
  void cut() {
    const LogCut::Kind kind = a_.question.cut.kind;
    if (kind == LogCut::Kind::markers) {
      put("cut", "markers");
      return;
    }
    if (kind == LogCut::Kind::whole) {
      if (sessions() || a_.findings.whole.rows == 0) return;
      lines_.push_back("  setups:");
      span(std::string(key_of(a_.place)) + " 1", a_.findings.whole.from_us,
           a_.findings.whole.to_us);
      return;
    }
    const bool by_times = kind == LogCut::Kind::times;
    std::vector<std::string> spans;
    lines_.push_back(sessions() ? "  times:" : "  setups:");
    const std::size_t head = lines_.size();
    if (by_times) {
      for (const LogSpan& s : a_.question.cut.spans)
        span(s.name, s.from_us, s.to_us);
    } else {
      for (std::size_t i = 0; i < a_.findings.stretches.size(); ++i) {
        const LogStretch& s = a_.findings.stretches[i];
        if (s.rows > 0) span(name_of(i), s.from_us, s.to_us);
      }
    }
    if (lines_.size() == head) lines_.pop_back();
  }

  /// A set-up's name begins with its stage.
  [[nodiscard]] std::string name_of(std::size_t i) const {
    const std::string& name = a_.findings.stretches[i].name;
    if (sessions()) return name.empty() ? fmt::format("session {}", i + 1) : name;
    if (name.starts_with(key_of(a_.place)) || name.starts_with("baseline")) return name;
    return fmt::format("{} {}", key_of(a_.place), i + 1);
  }

  void span(const std::string& name, std::int64_t from_us, std::int64_t to_us) {
    lines_.push_back(fmt::format("    - {{name: {}, from: {}, to: {}}}", yaml_text(name),
                                 iso_time(from_us, a_.stated.zone),
                                 iso_time(to_us, a_.stated.zone)));
  }

  const ReadingsAnswer& a_;
  std::vector<std::string> lines_;
};

}  // namespace

std::vector<std::string> readings_yaml(const ReadingsAnswer& answer) {
  return Writer(answer).write();
}

}  // namespace hailwright
