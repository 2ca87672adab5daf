#include "cli/option_reader.hpp"

namespace hailwright::cli {

std::string dashed(std::string_view option) {
  return "--" + std::string(option);
}

std::optional<Amount> OptionReader::amount(std::string_view option, const std::string& text,
                                           Measure measure, const Bounds& bounds) {
  if (text.empty()) return std::nullopt;
  TextResult<Amount> read = read_amount(text, measure);
  if (!understood(option, read.problem) || !within(option, text, read.value->si, bounds))
    return std::nullopt;
  return read.value;
}

std::optional<double> OptionReader::number(std::string_view option, const std::string& text,
                                           const Bounds& bounds) {
  if (text.empty()) return std::nullopt;
  const TextResult<Amount> read = read_number(text);
  if (!understood(option, read.problem) || !within(option, text, read.value->si, bounds))
    return std::nullopt;
  return read.value->si;
}

std::optional<int> OptionReader::count(std::string_view option, const std::string& text,
                                       const Bounds& bounds) {
  if (text.empty()) return std::nullopt;
  const TextResult<int> read = read_count(text);
  if (!understood(option, read.problem) || !within(option, text, *read.value, bounds))
    return std::nullopt;
  return read.value;
}

bool OptionReader::understood(std::string_view option, const std::optional<TextProblem>& problem) {
  if (!problem) return true;
  error(problem->code, dashed(option) + ": " + problem->message, problem->hints);
  return false;
}

bool OptionReader::within(std::string_view option, const std::string& text, double value,
                          const Bounds& bounds) {
  if (bounds.holds(value)) return true;
  error("R01", dashed(option) + " is " + text + ", and must be " + std::string(bounds.words));
  return false;
}

}  // namespace hailwright::cli
