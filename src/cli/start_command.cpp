#include "cli/start_command.hpp"

#include <filesystem>
#include <vector>

#include "cli/exit_codes.hpp"
#include "cli/output_files.hpp"
#include "cli/spreadsheet.hpp"
#include "cli/terminal.hpp"
#include "cli/written_folder.hpp"
#include "core/utf8.hpp"
#include "hailwright/report/render.hpp"
#include "hailwright/report/starter_files.hpp"

namespace hailwright::cli {

namespace {

constexpr const char* workbook_name = "tables.xlsx";

void report_unknown_kind(const std::string& name) {
  std::string text =
      "hailwright: --from '" + name + "' is no kind of test to begin from; known are\n";
  for (const StarterKind& kind : starter_kinds())
    text += "  " + std::string(kind.name) + ": " + std::string(kind.about) + "\n";
  write_messages(text);
}

/// What comes next are commands to copy from a terminal, and these characters do not come through.
void report_unsafe_name(const std::string& folder) {
  write_messages("hailwright: the folder's name '" + hailwright::detail::without_steering(folder) +
                 "' has a tab, a line break or another character in it that steers a terminal, or "
                 "is not UTF-8\n  help: give it another name\n");
}

/// A path as a shell takes it.
std::string quoted(const std::string& path) {
  constexpr const char* plain = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789"
                                "_./-+,:@%";
  const bool option = !path.empty() && path.front() == '-';
  std::string safe = option ? "./" + path : path;
  if (safe.find_first_not_of(plain) == std::string::npos) return safe;
  std::string out = "'";
  for (const char c : safe)
    out += c == '\'' ? std::string("'\\''") : std::string(1, c);
  return out + "'";
}

/// What was written and what comes next, in order.
Document next_steps(const StarterKind& kind, const std::string& folder,
                    const std::vector<StarterFile>& files) {
  Facts written;
  for (const StarterFile& file : files)
    written.items.push_back({file.name, {plain(file.holds)}});
  const auto at = [&](const char* name) {
    return quoted((std::filesystem::path(folder) / name).string());
  };
  Document document{"Written to " + folder, {}};
  document.blocks = {
      Paragraph{plain("To begin from: " + std::string(kind.about) + ".")},
      written,
      Heading{2, plain("What comes next")},
      Paragraph{plain("1. Write your answers in place of each ??? in protocol.yaml and "
                      "panels/panel-a.yaml; copy the latter for each other model of panel.")},
      Paragraph{plain("2. See what is still missing:")},
      Snippet{{"hailwright check " + at("protocol.yaml") + " " + at("panels/panel-a.yaml")}},
      Paragraph{
          plain("3. See what the test takes, what can go wrong and whether it can answer. Once "
                "the safety questions are answered, this prints the line `planned:` for the "
                "record too:")},
      Snippet{{"hailwright plan " + at("protocol.yaml") + " --panel " + at("panels/panel-a.yaml")}},
      Paragraph{
          plain("4. Make the test. What you weighed, threw and read goes into the tables, the "
                "rest into record.yaml.")},
      Paragraph{plain("5. See what is still missing, and then what the test showed:")},
      Snippet{{"hailwright check " + at("record.yaml"), "hailwright judge " + at("record.yaml")}}};
  return document;
}

}  // namespace

int run_start(const StartOptions& o) {
  const StarterKind* kind = o.from.empty() ? &starter_kinds().front() : find_starter_kind(o.from);
  if (kind == nullptr) {
    report_unknown_kind(o.from);
    return exit_usage;
  }
  if (hailwright::detail::without_steering(o.folder) != o.folder) {
    report_unsafe_name(o.folder);
    return exit_usage;
  }
  std::vector<StarterFile> files = starter_files(*kind);
  Loaded workbook = spreadsheet_bytes(starter_tables(*kind));
  if (!workbook.text) {
    write_messages(text_of({{workbook_name, workbook.problem, workbook.hint}}));
    return exit_output;
  }
  files.push_back({workbook_name, std::move(*workbook.text),
                   "the same tables as sheets, and what each column holds"});
  std::vector<OutputFile> output;
  output.reserve(files.size());
  for (const StarterFile& file : files)
    output.push_back({file.name, file.bytes});
  const std::vector<WriteFault> faults = write_into(o.folder, output, Existing::keep);
  if (!faults.empty()) {
    write_messages(text_of(faults) + "Nothing was written.\n");
    return exit_output;
  }
  return write_output(render_console(next_steps(*kind, o.folder, files), console_style()));
}

}  // namespace hailwright::cli
