#include "cli/typed_options.hpp"

#include <algorithm>
#include <array>
#include <string_view>

namespace hailwright::cli {

namespace {

/// Where an option changes nothing: beside another one of these values, or of any.
struct IdleRule {
  std::string_view command, option, beside;
  std::string_view value;  ///< empty: any
  std::string_view why;
};

constexpr std::string_view in_folder = "says nothing with -o, which writes every format";
constexpr std::string_view in_order = "says nothing with --estimate-only, which has no order";
constexpr std::string_view of_trials = "belongs to random trials, and --trials 0 makes none";

constexpr std::array rules{
    IdleRule{"plan", "--format", "--output", "", in_folder},
    IdleRule{"plan", "--order", "--estimate-only", "", in_order},
    IdleRule{"line-up", "--format", "--output", "", in_folder},
    IdleRule{"line-up", "--columns", "--format", "csv",
             "says nothing with --format csv: it has all"},
    IdleRule{"line-up", "--columns", "--format", "json",
             "says nothing with --format json: it has all"},
    IdleRule{"line-up", "--title", "--format", "csv",
             "says nothing with --format csv: it has none"},
    IdleRule{"judge", "--seed", "--trials", "0", of_trials},
    IdleRule{"judge", "--threads", "--trials", "0", of_trials},
    IdleRule{"judge", "--shortest", "--trials", "0", of_trials},
    IdleRule{"write", "--seed", "--trials", "0", of_trials},
    IdleRule{"write", "--threads", "--trials", "0", of_trials},
    IdleRule{"readings", "--as", "--format", "json",
             "says nothing with --format json: no block for a record stands there"},
    IdleRule{"readings", "--as", "--format", "csv",
             "says nothing with --format csv: no block for a record stands there"},
};

/// What a proposed column map is made from.
constexpr std::array beside_suggest{std::string_view("FILE"),      std::string_view("--suggest"),
                                    std::string_view("--zone"),    std::string_view("--separator"),
                                    std::string_view("--decimal"), std::string_view("--dates")};

const TypedOption* find(const std::vector<TypedOption>& typed, std::string_view name) {
  const auto found = std::find_if(typed.begin(), typed.end(),
                                  [&](const TypedOption& each) { return each.name == name; });
  return found == typed.end() ? nullptr : &*found;
}

/// "00" is as much no trial as "0".
bool means(const std::string& typed, std::string_view value) {
  const bool zeros = !typed.empty() && typed.find_first_not_of('0') == std::string::npos;
  return typed == value || (value == "0" && zeros);
}

bool idle(const IdleRule& rule, const std::vector<TypedOption>& typed) {
  if (find(typed, rule.option) == nullptr) return false;
  const TypedOption* other = find(typed, rule.beside);
  if (other == nullptr) return false;
  return rule.value.empty() ||
         std::any_of(other->values.begin(), other->values.end(),
                     [&](const std::string& value) { return means(value, rule.value); });
}

std::string line(std::string_view option, std::string_view why) {
  return "hailwright: " + std::string(option) + " " + std::string(why) + "\n";
}

bool known_beside_suggest(const std::string& name) {
  return std::find(beside_suggest.begin(), beside_suggest.end(), name) != beside_suggest.end();
}

}  // namespace

std::string empty_options(const std::vector<TypedOption>& typed) {
  std::string messages;
  for (const TypedOption& each : typed) {
    if (std::find(each.values.begin(), each.values.end(), "") != each.values.end())
      messages += line(each.name, "has nothing in it");
  }
  if (!messages.empty()) messages += "  help: write a value behind it, or leave it out\n";
  return messages;
}

std::string idle_options(const std::string& command, const std::vector<TypedOption>& typed) {
  std::string messages;
  for (const IdleRule& rule : rules) {
    if (rule.command == command && idle(rule, typed)) messages += line(rule.option, rule.why);
  }
  if (command == "plan" && find(typed, "--replace") != nullptr &&
      find(typed, "--output") == nullptr)
    messages += line("--replace", "belongs to -o");
  if (command == "readings" && find(typed, "--suggest") != nullptr) {
    for (const TypedOption& each : typed) {
      if (!known_beside_suggest(each.name))
        messages +=
            line(each.name, "says nothing with --suggest, which only proposes a column map");
    }
  }
  if (!messages.empty()) messages += "  help: leave one of the two out\n";
  return messages;
}

}  // namespace hailwright::cli
