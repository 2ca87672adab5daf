#include "model/stresses/stress_parts.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace hailwright::stresses {

namespace {

constexpr double longest_in_seconds = 300.0;  // printed in minutes from here

Estimate<Ratio> bare(double value, double u) {
  return {Ratio::from_si(value), Ratio::from_si(u)};
}

}  // namespace

std::optional<double> typed(const StressValues& values, std::string_view key) {
  const auto found = values.find(std::string(key));
  if (found == values.end()) return std::nullopt;
  return found->second.si;
}

double last_digit(const StressValues& values, std::string_view key) {
  const auto found = values.find(std::string(key));
  return found == values.end() ? 0.0 : found->second.step_si;
}

double from_half_width(double half_width) {
  return half_width / std::sqrt(3.0);
}

double from_step(double step) {
  return step / std::sqrt(12.0);
}

double from_two_readings(double step) {
  return step / std::sqrt(6.0);
}

double joined(std::initializer_list<double> parts) {
  double squares = 0.0;
  for (const double part : parts)
    squares += part * part;
  return std::sqrt(squares);
}

StressReached time_reached(std::string label, double planned_s, double done_s, double step_s) {
  const bool short_one = planned_s < longest_in_seconds;
  const double unit_s = short_one ? 1.0 : 60.0;
  return {.label = std::move(label),
          .unit = short_one ? "s" : "min",
          .planned = planned_s / unit_s,
          .done = bare(done_s / unit_s, from_two_readings(step_s) / unit_s),
          .decimals = 1,
          .weak_when_low = true,
          .tolerance = usual_tolerance,
          .taken = "time known to one unit of its last typed digit at start and end [ours]"};
}

StressReached count_reached(std::string label, double planned, double done) {
  return {.label = std::move(label),
          .unit = "",
          .planned = planned,
          .done = bare(done, 0.0),
          .decimals = 0,
          .weak_when_low = true,
          .tolerance = 0.0,
          .taken = {}};
}

StressReached word_reached(std::string label, bool as_planned) {
  StressReached reached = count_reached(std::move(label), 1.0, as_planned ? 1.0 : 0.0);
  reached.yes_no = true;
  return reached;
}

StressQuestion one_word(std::string_view kind, std::string_view key, std::string_view asks,
                        std::vector<std::string_view> words, std::string_view caution) {
  const std::string_view good = words.front();
  StressQuestion question;
  question.asked = {kind, key, AnswerForm::word, asks, good, std::move(words)};
  question.missing = [good](const std::string& answer) -> std::optional<std::string> {
    if (answer == good) return std::nullopt;
    return std::string(good);
  };
  question.caution = caution;
  return question;
}

StressQuestion by_yes(std::string_view kind, std::string_view key, std::string_view asks,
                      std::string_view caution) {
  StressQuestion question;
  question.asked = {kind, key, AnswerForm::yes_no, asks, "yes"};
  question.missing = [](const std::string& answer) -> std::optional<std::string> {
    if (answer == "yes") return std::nullopt;
    return "yes";
  };
  question.caution = caution;
  return question;
}

StressQuestion at_most(std::string_view kind, std::string_view key, std::string_view asks,
                       std::string_view example, Measure measure, double limit,
                       std::string_view limit_in_words, std::string_view caution) {
  StressQuestion question;
  question.asked = {kind, key, AnswerForm::amount, asks, example, {}, measure};
  question.missing = [=](const std::string& answer) -> std::optional<std::string> {
    const auto amount = read_amount(answer, measure).value;
    if (amount && amount->si >= 0.0 && amount->si <= limit) return std::nullopt;
    return std::string(limit_in_words);
  };
  question.caution = caution;
  return question;
}

StressQuestion not_installed(std::string_view kind) {
  StressQuestion question;
  question.asked = {kind, "installed", AnswerForm::yes_no,
                    "is the panel part of an array, a roof or a vehicle", "no"};
  question.missing = [](const std::string& answer) -> std::optional<std::string> {
    if (answer == "no") return std::nullopt;
    return "no";
  };
  question.caution = "installed_array";
  question.refused_for = "yes";
  return question;
}

StressQuestion goes_after(std::string_view kind) {
  StressQuestion question =
      one_word(kind, "afterwards", "where the panel goes",
               {"kept and marked", "electronic waste", "sold or installed"}, "reuse_tested_panel");
  question.missing = [](const std::string& answer) -> std::optional<std::string> {
    if (answer == "kept and marked" || answer == "electronic waste") return std::nullopt;
    return "kept and marked, or electronic waste";
  };
  return question;
}

StressKey scale_key() {
  return {.key = "scale",
          .measure = Measure::ratio,
          .low = 0.0,
          .high = 0.2,
          .range = "from 0 % to 20 %",
          .asks = "how far off the scale may be, of what it shows; 2 % unless typed",
          .example = "1 %"};
}

std::optional<double> area_of(const Panel& panel) {
  if (!panel.size) return std::nullopt;
  return (panel.size->long_side * panel.size->short_side).si();
}

}  // namespace hailwright::stresses
