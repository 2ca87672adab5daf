#include "input/stated_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <vector>

#include "core/contains.hpp"
#include "core/quoted.hpp"
#include "hailwright/metrology/distributions.hpp"

namespace hailwright::input {

namespace {

/// A piece of a statement with its place in the text.
struct Term {
  std::string_view text;
  std::size_t offset;  ///< characters
};

Term trimmed(std::string_view whole, std::size_t begin, std::size_t end) {
  while (begin < end && whole[begin] == ' ')
    ++begin;
  while (end > begin && whole[end - 1] == ' ')
    --end;
  return {whole.substr(begin, end - begin), count_characters(whole.substr(0, begin))};
}

/// Terms joined by a mark; a + behind an e belongs to a number (1e+3).
std::vector<Term> split(std::string_view whole, char mark) {
  std::vector<Term> terms;
  std::size_t begin = 0;
  for (std::size_t i = 0; i < whole.size(); ++i) {
    if (whole[i] != mark) continue;
    const bool exponent = mark == '+' && i > 1 && (whole[i - 1] == 'e' || whole[i - 1] == 'E') &&
                          whole[i - 2] >= '0' && whole[i - 2] <= '9';
    if (exponent) continue;
    terms.push_back(trimmed(whole, begin, i));
    begin = i + 1;
  }
  terms.push_back(trimmed(whole, begin, whole.size()));
  return terms;
}

TextProblem moved(TextProblem problem, const Term& term) {
  problem.offset += term.offset;
  return problem;
}

TextProblem problem_of(std::string_view code, const Term& term, std::string message,
                       std::vector<std::string> hints = {}) {
  return {code, term.offset, count_characters(term.text), std::move(message), std::move(hints)};
}

/// A ± anywhere: refused, with the three ways in the unit that the user had in mind.
std::optional<TextProblem> plus_minus(std::string_view text) {
  constexpr std::array<std::string_view, 3> forms{"±", "+/-", "+-"};
  for (const std::string_view form : forms) {
    const std::size_t at = text.find(form);
    if (at == std::string_view::npos) continue;
    const Term size = trimmed(text, at + form.size(), text.size());
    const std::string_view shown = size.text.empty() ? std::string_view("1 %") : size.text;
    const std::string_view first = split(shown, '+').front().text;
    return TextProblem{
        "U11",
        count_characters(text.substr(0, at)),
        count_characters(form),
        "± alone does not say what it promises",
        {fmt::format("accuracy: {}  if it is the maker's figure: never wrong by more", shown),
         fmt::format("spread: {}  if you repeated it and found this standard deviation", first),
         fmt::format("within: \"{}, 95 %\"  if a certificate says: true 95 times in 100", first)}};
  }
  return std::nullopt;
}

std::optional<std::string_view> without_suffix(std::string_view text, std::string_view suffix) {
  if (!text.ends_with(suffix)) return std::nullopt;
  return text.substr(0, text.size() - suffix.size());
}

/// Reads one term of a statement into its part.
class TermReader {
public:
  TermReader(const StatedForm& form, StatedParts& parts) : form_(form), parts_(parts) {}

  std::optional<TextProblem> read(const Term& term) {
    if (term.text.empty()) return problem_of("U21", term, "an amount is missing");
    for (const std::string_view word : {"digits", "digit"}) {
      if (const auto number = without_suffix(term.text, word)) return digits(term, *number);
    }
    const bool share = contains(term.text, "%") && !contains(term.text, "%/");
    if (share && form_.measure != Measure::ratio) return percent(term);
    return amount(term);
  }

private:
  std::optional<TextProblem> digits(const Term& term, std::string_view number) {
    if (!form_.digits) {
      return problem_of("U22", term, "digits say nothing here: no step of a display is known",
                        {"write the amount that they stand for"});
    }
    TextResult<Amount> read = read_number(number);
    if (read.problem) return moved(*read.problem, term);
    return put(term, parts_.digits, read.value->si, largest_error_size);
  }

  std::optional<TextProblem> percent(const Term& term) {
    if (!form_.percent) {
      return problem_of("U23", term, "per cent of this reading have no meaning",
                        {fmt::format("write the amount, {}", name(form_.measure))});
    }
    TextResult<Amount> read = read_amount(term.text, Measure::ratio);
    if (read.problem) {
      TextProblem problem = moved(*read.problem, term);
      problem.hints = {
          "a percentage alone is of the reading; of a range or of full scale, write the amount"};
      return problem;
    }
    return put(term, parts_.relative, read.value->si, largest_error_share);
  }

  std::optional<TextProblem> amount(const Term& term) {
    TextResult<Amount> read = read_amount(term.text, form_.measure);
    if (read.problem) return moved(*read.problem, term);
    const bool share = form_.measure == Measure::ratio;
    return put(term, share ? parts_.relative : parts_.absolute_si, read.value->si,
               share ? largest_error_share : largest_error_size);
  }

  static std::optional<TextProblem> put(const Term& term, double& part, double value,
                                        double largest) {
    if (value < least_error_size) {
      return problem_of("R04", term,
                        fmt::format("the size of an error must be more than 0, found {}",
                                    detail::quoted(term.text)),
                        {"write unknown if you do not know it"});
    }
    if (value > largest * (1.0 + 1e-12)) {
      return problem_of(
          "R01", term,
          fmt::format("the size of an error must be {}, found {}",
                      largest == largest_error_share ? "100 % or less" : "a million or less in SI",
                      detail::quoted(term.text)),
          {"write unknown if you do not know it"});
    }
    if (part != 0.0) {
      return problem_of("U24", term, "a second term of the same kind",
                        {"join the two, or keep the larger"});
    }
    part = value;
    return std::nullopt;
  }

  const StatedForm& form_;
  StatedParts& parts_;
};

/// One size, as a share or an amount, into the parts.
bool read_size(const Node& node, std::string_view what, const StatedForm& form, StatedParts& parts,
               Diagnostics& notes) {
  const std::optional<std::string> text = read_text(node, what, notes);
  if (!text) return false;
  std::optional<TextProblem> problem = plus_minus(*text);
  if (!problem) {
    StatedForm single = form;
    single.digits = false;
    problem = TermReader(single, parts).read({*text, 0});
  }
  if (problem) add_problem(node, *problem, what, notes);
  return !problem;
}

void scale(StatedParts& parts, double factor) {
  parts.relative *= factor;
  parts.absolute_si *= factor;
}

/// "0.6 g, 95 %": normal, u = size / z(level).
std::optional<StatedParts> read_within(const Node& node, const StatedForm& form,
                                       Diagnostics& notes) {
  const std::string_view what = "'within'";
  const std::optional<std::string> text = read_text(node, what, notes);
  if (!text) return std::nullopt;
  const auto refuse = [&](const TextProblem& problem) {
    add_problem(node, problem, what, notes);
    return std::optional<StatedParts>{};
  };
  if (const auto problem = plus_minus(*text)) return refuse(*problem);
  const std::vector<Term> terms = split(*text, ',');
  if (terms.size() != 2) {
    return refuse({"U25",
                   0,
                   count_characters(*text),
                   "a size and how often it holds were expected",
                   {"write it as in  within: \"1 %, 95 %\""}});
  }
  StatedParts parts;
  parts.shape = Shape::normal;
  parts.origin = node.span;
  StatedForm single = form;
  single.digits = false;
  if (const auto problem = TermReader(single, parts).read(terms[0])) return refuse(*problem);
  const TextResult<Amount> level = read_amount(terms[1].text, Measure::ratio);
  if (level.problem) return refuse(moved(*level.problem, terms[1]));
  constexpr double least_level = 0.5;
  if (level.value->si <= least_level || level.value->si >= 1.0) {
    return refuse(problem_of("R05", terms[1],
                             fmt::format("how often it holds must be between 50 % and 100 %, "
                                         "found {}",
                                         detail::quoted(terms[1].text))));
  }
  scale(parts, 1.0 / normal_quantile(0.5 + level.value->si / 2.0));
  return parts;
}

/// A plain number above 0, such as a coverage factor.
std::optional<double> read_factor(const MapReader& map, std::string_view key, double low) {
  const Entry* entry = map.find(key);
  if (entry == nullptr) return std::nullopt;
  const std::string what = fmt::format("'{}'", key);
  const std::optional<std::string> text = read_text(entry->value, what, map.notes());
  if (!text) return std::nullopt;
  const TextResult<Amount> number = read_number(*text);
  if (number.problem) {
    add_problem(entry->value, *number.problem, what, map.notes());
    return std::nullopt;
  }
  constexpr double largest = 1e6;  // as good as endless [ours]
  if (number.value->si < low || number.value->si > largest) {
    map.notes().error("R01", entry->value.span,
                      fmt::format("{} must be {} or more, up to a million, found {}", what, low,
                                  detail::quoted(*text)));
    return std::nullopt;
  }
  return number.value->si;
}

/// The key of `keys` that the mapping has; an error when it is not just one.
const Entry* only_one(const MapReader& map, const std::vector<std::string>& keys,
                      std::string_view hint) {
  const Entry* found = nullptr;
  for (const std::string& key : keys) {
    const Entry* entry = map.find(key);
    if (entry == nullptr) continue;
    if (found != nullptr) {
      map.notes()
          .error("C01", entry->key_span,
                 fmt::format("'{}' and '{}' both state this error", found->key, entry->key),
                 {"keep one of the two"})
          .related.push_back({found->key_span, "first stated here"});
      return nullptr;
    }
    found = entry;
  }
  if (found == nullptr && map.usable() && !hint.empty()) {
    map.notes().error("K02", map.owner(),
                      fmt::format("the size of the error is missing in {}", map.where()),
                      {std::string(hint)});
  }
  return found;
}

/// `expanded` needs its k; k means nothing without it.
std::optional<double> coverage_factor(const MapReader& map, const Entry& size) {
  const bool expanded = size.key == "expanded";
  if (!expanded && map.find("k") != nullptr) {
    map.notes().error("C02", map.at("k"), fmt::format("k says nothing about '{}'", size.key),
                      {"delete k, or write expanded for an expanded uncertainty"});
    return std::nullopt;
  }
  if (!expanded) return 1.0;
  if (map.require("k", "write the coverage factor of the certificate, as in  k: 2") == nullptr)
    return std::nullopt;
  return read_factor(map, "k", 1.0);
}

/// The shape of a size: a half-width is bounded, a standard deviation normal.
std::optional<Shape> shape_of(const MapReader& map, const Entry& size, bool obligatory) {
  const auto shape = map.choice<Shape>("shape", {{"normal", Shape::normal},
                                                 {"rectangular", Shape::rectangular},
                                                 {"triangular", Shape::triangular},
                                                 {"arcsine", Shape::arcsine}});
  const Entry* given = map.find("shape");
  const bool bounded = size.key == "half_width";
  if (given == nullptr) {
    if (!bounded) return Shape::normal;
    if (!obligatory) return Shape::rectangular;
    map.require("shape", "write shape: rectangular if nothing else is known");
    return std::nullopt;
  }
  if (!shape || bounded != (*shape == Shape::normal)) return shape;
  if (bounded) {
    map.notes().error("C02", given->key_span, "a normal error has no half-width",
                      {"write u for its standard deviation, or expanded with its k",
                       "or write the shape that stays within the half-width"});
  } else {
    map.notes().error("C02", given->key_span,
                      fmt::format("'{}' is that of a normal error", size.key),
                      {"delete the shape, or write half_width"});
  }
  return std::nullopt;
}

/// What stands beside a size and says what it means.
struct SizeMeaning {
  Shape shape = Shape::normal;
  double k = 1.0;
  double degrees_of_freedom = std::numeric_limits<double>::infinity();
};

std::optional<SizeMeaning> read_meaning(const MapReader& map, const Entry& size,
                                        bool shape_obligatory) {
  const std::optional<Shape> shape = shape_of(map, size, shape_obligatory);
  const std::optional<double> k = coverage_factor(map, size);
  const std::optional<double> freedom = read_factor(map, "degrees_of_freedom", 1.0);
  if (!shape || !k || (!freedom && map.find("degrees_of_freedom") != nullptr)) return std::nullopt;
  return SizeMeaning{*shape, *k, freedom.value_or(std::numeric_limits<double>::infinity())};
}

std::optional<StatedParts> read_uncertainty(const Node& node, SourceSpan owner,
                                            const StatedForm& form, Diagnostics& notes) {
  const MapReader map(node, uncertainty_keys, owner, notes);
  const Entry* size = only_one(map, {"u", "half_width", "expanded"},
                               "write u, half_width with its shape, or expanded with its k");
  if (size == nullptr) return std::nullopt;
  StatedParts parts;
  parts.origin = owner;
  const auto meaning = read_meaning(map, *size, true);
  const bool read = read_size(size->value, fmt::format("'{}'", size->key), form, parts, notes);
  if (!read || !meaning) return std::nullopt;
  parts.shape = meaning->shape;
  parts.degrees_of_freedom = meaning->degrees_of_freedom;
  scale(parts, 1.0 / meaning->k);
  return parts;
}

}  // namespace

std::optional<StatedParts> read_accuracy(const Node& node, std::string_view what,
                                         const StatedForm& form, Diagnostics& notes) {
  const std::optional<std::string> text = read_text(node, what, notes);
  if (!text || *text == "unknown") return std::nullopt;
  if (const auto problem = plus_minus(*text)) {
    add_problem(node, *problem, what, notes);
    return std::nullopt;
  }
  StatedParts parts;
  parts.origin = node.span;
  TermReader reader(form, parts);
  for (const Term& term : split(*text, '+')) {
    if (const auto problem = reader.read(term)) {
      add_problem(node, *problem, what, notes);
      return std::nullopt;
    }
  }
  return parts;
}

std::optional<StatedParts> read_statement(const MapReader& map, const StatedForm& form) {
  const Entry* entry = only_one(map, words_of(stated_keys), "");
  if (entry == nullptr) return std::nullopt;
  const Node& node = entry->value;
  if (entry->key == "accuracy") return read_accuracy(node, "'accuracy'", form, map.notes());
  if (entry->key == "within") return read_within(node, form, map.notes());
  if (entry->key == "uncertainty")
    return read_uncertainty(node, entry->key_span, form, map.notes());
  StatedParts parts;
  parts.shape = Shape::normal;
  parts.origin = node.span;
  if (!read_size(node, "'spread'", form, parts, map.notes())) return std::nullopt;
  return parts;
}

std::optional<ValueParts> read_value(const Node& node, std::string_view key, SourceSpan owner,
                                     Measure measure, const Range& range, Diagnostics& notes) {
  const std::string what = fmt::format("'{}'", key);
  ValueParts parts;
  parts.origin = node.span;
  if (node.kind != NodeKind::map) {
    if (node.kind == NodeKind::text && node.text == "unknown") return std::nullopt;
    const auto amount = read_amount_of(node, what, measure, range, notes);
    if (!amount) return std::nullopt;
    parts.value_si = amount->si;
    return parts;
  }
  const MapReader map(node, value_keys, owner, notes);
  const Entry* value = map.require("value", "write the value with its unit");
  const Entry* size =
      only_one(map, {"u", "half_width", "expanded"}, "write half_width, u, or expanded with its k");
  std::optional<Amount> amount;
  if (value != nullptr) amount = read_amount_of(value->value, "'value'", measure, range, notes);
  if (size == nullptr) return std::nullopt;
  const auto meaning = read_meaning(map, *size, false);
  const Measure size_measure =
      measure == Measure::temperature ? Measure::temperature_difference : measure;
  StatedParts error;
  const StatedForm form{size_measure, false, false};
  const bool read = read_size(size->value, fmt::format("'{}'", size->key), form, error, notes);
  if (!amount || !meaning || !read) return std::nullopt;
  parts.value_si = amount->si;
  parts.shape = meaning->shape;
  parts.degrees_of_freedom = meaning->degrees_of_freedom;
  parts.size_si = (error.absolute_si + error.relative) / meaning->k;
  return parts;
}

}  // namespace hailwright::input
