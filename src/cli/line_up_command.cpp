#include "cli/line_up_command.hpp"

#include <algorithm>
#include <array>
#include <filesystem>
#include <map>
#include <optional>
#include <set>
#include <utility>

#include "cli/byte_source.hpp"
#include "cli/exit_codes.hpp"
#include "cli/files.hpp"
#include "cli/picture_files.hpp"
#include "cli/record_files.hpp"
#include "cli/spreadsheet.hpp"
#include "cli/terminal.hpp"
#include "cli/told_folder.hpp"
#include "hailwright/core/digest.hpp"
#include "hailwright/evaluate/assessment.hpp"
#include "hailwright/evaluate/extent.hpp"
#include "hailwright/report/line_up.hpp"
#include "hailwright/report/render.hpp"
#include "report/line_up_words.hpp"

namespace hailwright::cli {

namespace {

using Words = std::vector<std::string>;

constexpr const char* line_up_spreadsheet = "line-up.xlsx";

constexpr std::array orders{LineUpQuantity::loss,           LineUpQuantity::power,
                            LineUpQuantity::share_of_rated, LineUpQuantity::power_per_area,
                            LineUpQuantity::power_per_mass, LineUpQuantity::price_per_watt,
                            LineUpQuantity::shading_loss};

/// What is shown and by what it is ordered.
struct Wishes {
  LineUpQuantity order = LineUpQuantity::loss;
  Words columns;
};

std::string listed(const Words& words) {
  std::string text;
  for (const std::string& word : words)
    text += (text.empty() ? "" : ", ") + word;
  return text;
}

Words split(const std::string& text) {
  Words words{""};
  for (const char c : text) {
    if (c == ',') {
      words.emplace_back();
    } else if (c != ' ') {
      words.back() += c;
    }
  }
  return words;
}

/// Words of options, each fault with the nearest word and the list of them.
class WishReader {
public:
  explicit WishReader(const LineUpOptions& options) : options_(options) {}

  std::optional<Wishes> read() {
    Wishes wishes;
    sort(wishes);
    columns(wishes);
    write_messages(messages_);
    return messages_.empty() ? std::optional(std::move(wishes)) : std::nullopt;
  }

private:
  bool knows(const char* option, const std::string& word, const Words& known) {
    if (std::find(known.begin(), known.end(), word) != known.end()) return true;
    messages_ += std::string("hailwright: ") + option + " knows no '" + word + "'\n";
    if (const auto nearest = nearest_word(word, known))
      messages_ += "  help: did you mean '" + *nearest + "'?\n";
    messages_ += "  help: known are " + listed(known) + "\n";
    return false;
  }

  void sort(Wishes& wishes) {
    Words known;
    for (const LineUpQuantity order : orders)
      known.emplace_back(word(order));
    if (!knows("--sort", options_.sort, known)) return;
    const auto at = std::find(known.begin(), known.end(), options_.sort) - known.begin();
    wishes.order = orders.at(static_cast<std::size_t>(at));
  }

  void columns(Wishes& wishes) {
    Words known;
    for (const LineUpColumn& column : line_up_columns())
      known.emplace_back(column.word);
    if (options_.columns == "all") {
      wishes.columns = std::move(known);
    } else if (options_.columns.empty()) {
      wishes.columns = usual_line_up_columns();
      add_once(wishes.columns, options_.sort);
      if (wishes.order == LineUpQuantity::price_per_watt) {
        for (const char* price : {"price", "price-range", "price-per-watt-range"})
          add_once(wishes.columns, price);
      }
    } else {
      Words hinted = known;
      hinted.emplace_back("all");
      for (const std::string& word : split(options_.columns)) {
        if (word == "all") {
          messages_ += "hailwright: --columns all stands alone\n";
        } else if (knows("--columns", word, hinted)) {
          add_once(wishes.columns, word);
        }
      }
    }
  }

  static void add_once(Words& columns, const std::string& word) {
    if (std::find(columns.begin(), columns.end(), word) == columns.end()) columns.push_back(word);
  }

  const LineUpOptions& options_;
  std::string messages_;
};

/// The bytes of records with their tables, to know one again under another name.
class Copies {
public:
  explicit Copies(const Words& records) : records_(records.begin(), records.end()) {}

  void loaded(const std::string& path, const Loaded& file) {
    if (records_.contains(path)) own_ = {};
    if (!file.text || !(records_.contains(path) || path.ends_with(".csv"))) return;
    if (records_.contains(path)) own_.text = *file.text;
    own_.sums += sha256_hex(*file.text);
  }
  /// What a logger wrote is not held: nobody can say whether it is the same.
  void log_opened() { own_.with_log = true; }

  /// Of the record just read; says so where one before it is the same.
  bool is_new(const std::string& path) {
    if (own_.with_log) return true;
    const auto [before, is_first] = seen_.emplace(own_.sums, path);
    if (is_first) return true;
    SourceSet sources;
    Diagnostics notes;
    notes.error("C37", {sources.add(path, own_.text), 0, 0, 0},
                "the record is named twice: " + before->second + " holds the same byte by byte",
                {"name each record once: its shots and readings would count twice"});
    write_messages(render_diagnostics(notes, sources));
    return false;
  }

private:
  struct Own {
    std::string text, sums;
    bool with_log = false;
  };
  std::set<std::string> records_;
  std::map<std::string, std::string> seen_;
  Own own_;
};

/// What became of the records, and which files were read for it.
struct Entries {
  std::vector<LineUpEntry> all;
  std::set<std::string> files;
  bool sound = false;
};

/// Reads and judges them one by one, without random trials. All messages go to standard error.
Entries read_entries(const Words& paths) {
  Entries entries;
  Copies copies(paths);
  bool all_new = true;
  const Loader load = [&](const std::string& path, std::size_t largest) {
    entries.files.insert(path);
    Loaded file = load_file(path, largest);
    copies.loaded(path, file);
    return file;
  };
  const LogOpener open_log = [&](const std::string& path) {
    entries.files.insert(path);
    copies.log_opened();
    return open_log_file(path);
  };
  entries.sound = take_records(
      paths, load, open_log,
      [&](const Test& test, const std::string& path) {
        all_new = copies.is_new(path) && all_new;
        entries.all.push_back(
            line_up_entry(test, assess(test, std::nullopt, Extent::verdicts), path));
      },
      [](const Diagnostics& notes, const SourceSet& sources) {
        write_messages(render_diagnostics(notes, sources));
      });
  entries.sound = entries.sound && all_new;
  return entries;
}

void tell_titles_apart(std::vector<LineUpEntry>& entries) {
  Words titles;
  Words paths;
  for (const LineUpEntry& entry : entries) {
    titles.push_back(entry.title);
    paths.push_back(entry.path);
  }
  tell_apart(titles, paths);
  for (std::size_t i = 0; i < entries.size(); ++i)
    entries[i].title = titles[i];
}

int print(const LineUpView& view, const std::string& format) {
  if (format == "json") return write_output(line_up_json(view));
  if (format == "csv") return write_output(render_csv(line_up_tables(view).front()));
  const Document document = compose_line_up(view);
  if (format == "html") return write_output(render_html(document));
  if (format == "md") return write_output(render_markdown(document));
  return write_output(render_console(document, console_style()));
}

int write_all(const LineUpView& view, const LineUpOptions& o, const std::set<std::string>& read) {
  Loaded spreadsheet = spreadsheet_bytes(line_up_workbook(view));
  if (!spreadsheet.text) {
    write_messages(text_of({{line_up_spreadsheet, spreadsheet.problem, spreadsheet.hint}}));
    return exit_output;
  }
  const Document document = compose_line_up(view);
  std::vector<OutputFile> files{
      {"line-up.html", render_html(document)},
      {"line-up.md", render_markdown(document, MarkdownStyle{.pictures = true})},
      {"line-up.json", line_up_json(view)},
      {line_up_spreadsheet, std::move(*spreadsheet.text)}};
  for (const DataTable& table : line_up_tables(view))
    files.push_back({table.name + ".csv", render_csv(table)});
  add_pictures(files, document);
  return write_and_tell(o.folder, line_up_mark, std::move(files),
                        o.replace ? Existing::replace : Existing::keep, {read.begin(), read.end()});
}

}  // namespace

int run_line_up(const LineUpOptions& o) {
  std::optional<Wishes> wishes = WishReader(o).read();
  if (!wishes) return exit_usage;
  Entries entries = read_entries(o.records);
  if (!entries.sound) return exit_input;
  tell_titles_apart(entries.all);
  for (const std::string& sentence : detail::same_panels(entries.all))
    write_messages("hailwright: warning: " + sentence + "\n");
  const LineUp ranked = line_up(entries.all, wishes->order);
  const LineUpView view{o.title, &entries.all, &ranked, std::move(wishes->columns)};
  return o.folder.empty() ? print(view, o.format) : write_all(view, o, entries.files);
}

}  // namespace hailwright::cli
