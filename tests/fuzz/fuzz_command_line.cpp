// Whole runs of the program in this process: an argument a line, standard input empty, in a folder
// of its own with a few small files, which is tidied after each run. Command lines that could lead
// out of that folder or that ask for long work are passed over.

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "cli/app.hpp"
#include "cli/exit_codes.hpp"
#include "named_parts.hpp"
#include "sandbox.hpp"

namespace {

using namespace hailwright;  // NOLINT(google-build-using-namespace): one file, one program

constexpr std::size_t most_arguments = 40;

std::vector<std::string> arguments_of(std::string_view text) {
  std::vector<std::string> arguments{"hailwright"};
  while (!text.empty()) {
    const std::size_t end = text.find_first_of(std::string_view("\n\0", 2));
    arguments.emplace_back(text.substr(0, end));
    if (end == std::string_view::npos) break;
    text.remove_prefix(end + 1);
  }
  return arguments;
}

/// A path from the root, from somebody's home or up from here, also behind an option: nothing that
/// the demo files say leads out, so arguments are all that can.
bool leads_out(std::string_view argument) {
  if (argument.find("..") != std::string_view::npos) return true;
  if (argument.find('~') != std::string_view::npos) return true;
  const bool short_option = argument.starts_with('-') && !argument.starts_with("--");
  for (std::size_t at = argument.find('/'); at != std::string_view::npos;
       at = argument.find('/', at + 1)) {
    const std::string_view before = argument.substr(0, at);
    const auto plain = [](char c) {
      return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '.';
    };
    if (short_option || before.empty() || !plain(before.back())) return true;
  }
  return false;
}

bool only_digits(std::string_view text) {
  return !text.empty() && text.find_first_not_of("0123456789") == std::string_view::npos;
}

/// Numbers of trials and threads that keep a run short, or that are refused at once.
bool takes_long(std::string_view trials_or_threads, std::string_view option) {
  if (!only_digits(trials_or_threads)) return trials_or_threads == "adaptive";
  const std::string_view digits = trials_or_threads.substr(
      std::min(trials_or_threads.find_first_not_of('0'), trials_or_threads.size() - 1));
  const std::string_view most = option == "--trials" ? "20000" : "2";
  return digits.size() > most.size() || (digits.size() == most.size() && digits > most);
}

bool asks_for_long_work(const std::vector<std::string>& arguments) {
  for (const std::string_view option : {"--trials", "--threads"}) {
    for (std::size_t i = 1; i < arguments.size(); ++i) {
      const std::string_view argument = arguments[i];
      if (!argument.starts_with(option)) continue;
      if (argument == option) {
        if (i + 1 < arguments.size() && takes_long(arguments[i + 1], option)) return true;
      } else if (takes_long(argument.substr(option.size() + 1), option)) {
        return true;
      }
    }
  }
  return false;
}

/// A million trials and all cores unless told otherwise: too much for one input.
void keep_short(std::vector<std::string>& arguments) {
  const auto has = [&](std::string_view option) {
    for (const std::string& argument : arguments)
      if (argument.starts_with(option)) return true;
    return false;
  };
  const auto is = [&](std::string_view command) {
    return arguments.size() > 1 && arguments[1] == command;
  };
  if ((is("judge") || is("write")) && !has("--trials")) arguments.emplace_back("--trials=0");
  if (is("readings") && !has("--threads")) arguments.emplace_back("--threads=1");
}

int run(const std::vector<std::string>& arguments) {
  std::vector<char*> pointers;
  for (const std::string& argument : arguments)
    pointers.push_back(const_cast<char*>(argument.c_str()));  // NOLINT: as of `main`
  pointers.push_back(nullptr);
  return cli::run(static_cast<int>(arguments.size()), pointers.data());
}

}  // namespace

extern "C" int LLVMFuzzerInitialize(int* /*argc*/, char*** /*argv*/) {
  fuzzing::sandbox();
  return 0;
}

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  std::vector<std::string> arguments = arguments_of(fuzzing::text_of(data, size));
  if (arguments.size() > most_arguments) return 0;
  for (const std::string& argument : arguments)
    if (leads_out(argument)) return 0;
  if (asks_for_long_work(arguments)) return 0;
  keep_short(arguments);
  const int code = fuzzing::sandbox().run([&] { return run(arguments); });
  fuzzing::require(code >= cli::exit_done && code <= cli::exit_output, "a documented exit code");
  return 0;
}
