#include "cli/write_command.hpp"

#include <filesystem>
#include <iterator>
#include <optional>
#include <utility>
#include <vector>

#include "cli/exit_codes.hpp"
#include "cli/input_copies.hpp"
#include "cli/photo_files.hpp"
#include "cli/picture_files.hpp"
#include "cli/record_files.hpp"
#include "cli/spreadsheet.hpp"
#include "cli/terminal.hpp"
#include "cli/told_folder.hpp"
#include "hailwright/report/render.hpp"
#include "hailwright/report/write_up.hpp"

namespace hailwright::cli {

namespace {

namespace fs = std::filesystem;

constexpr const char* spreadsheet_name = "report.xlsx";

/// All that the write-up is made from, read from the disk.
struct Material {
  FilesRead files;
  std::optional<InputCopies> copies;
  RecordsRead records;  ///< as read from the copies: places are named as readers find them
  PhotosRead photos;
};

std::vector<PhotosNamed> photos_of(const std::vector<std::string>& paths,
                                   const std::vector<Test>& tests) {
  std::vector<PhotosNamed> named;
  for (std::size_t i = 0; i < tests.size(); ++i)
    named.push_back({photos_named(tests[i]), fs::path(paths[i]).parent_path().string()});
  return named;
}

/// Reads the records again, from the copies as a reader of the write-up would.
/// @param sources  of the files, for messages
Diagnostics read_copies(const std::vector<std::string>& paths, SourceSet& sources,
                        Material& material) {
  const InputCopies& copies = material.copies.emplace(material.files);
  RecordsRead& read = material.records;
  std::vector<std::string> names;
  for (const std::string& path : paths) {
    const std::string& name = names.emplace_back(copies.copy_of(path));
    read_record(name, copies.loader(name), copies.log_opener(name), read);
  }
  if (!read.notes.has_errors()) tell_apart(read.tests, names);
  return copies.said_of_files(read.notes, read.sources, sources);
}

/// Fills the material; all messages go to standard error. False where something is wrong.
bool read_material(const WriteOptions& o, Material& material) {
  RecordsRead typed =
      read_records(o.judging.records, material.files.loader(), material.files.log_opener());
  Diagnostics notes = std::move(typed.notes);
  if (!notes.has_errors()) {
    Diagnostics again = read_copies(o.judging.records, typed.sources, material);
    if (again.has_errors()) notes = std::move(again);
    material.photos.of_records.resize(typed.tests.size());
    if (!o.without_photos) material.photos = read_photos(photos_of(o.judging.records, typed.tests));
    notes.append(std::move(material.photos.notes));
  }
  write_messages(render_diagnostics(notes, typed.sources));
  return !notes.has_errors();
}

std::vector<OutputFile> rendered(const WriteUp& write_up, std::string spreadsheet) {
  const Document document = compose_report(write_up);
  std::vector<OutputFile> files{
      {"report.html", render_html(document)},
      {"report.md", render_markdown(document, MarkdownStyle{.pictures = true})},
      {"report.json", report_json(write_up)},
      {spreadsheet_name, std::move(spreadsheet)}};
  for (const DataTable& table : report_tables(write_up))
    files.push_back({table.name + ".csv", render_csv(table)});
  add_pictures(files, document);
  return files;
}

void append(std::vector<OutputFile>& files, std::vector<OutputFile> more) {
  files.insert(files.end(), std::make_move_iterator(more.begin()),
               std::make_move_iterator(more.end()));
}

std::vector<std::string> paths_read(const Material& material) {
  std::vector<std::string> paths = material.photos.paths;
  for (const FilesRead::File& file : material.files.all())
    paths.push_back(file.path);
  return paths;
}

}  // namespace

int run_write(const WriteOptions& o) {
  const std::optional<Judging> judging = read_judging(o.judging);
  if (!judging) return exit_usage;
  Material material;
  if (!read_material(o, material)) return exit_input;
  const JudgedTests judged(material.records.tests, *judging);
  WriteUp write_up;
  write_up.judged = judged.all();
  write_up.sources = &material.records.sources;
  write_up.inputs = material.copies->for_write_up();
  write_up.photos = std::move(material.photos.of_records);
  write_up.version = HAILWRIGHT_VERSION;
  Loaded spreadsheet = spreadsheet_bytes(report_workbook(write_up));
  if (!spreadsheet.text) {
    write_messages(text_of({{spreadsheet_name, spreadsheet.problem, spreadsheet.hint}}));
    return exit_output;
  }
  std::vector<OutputFile> files = rendered(write_up, std::move(*spreadsheet.text));
  append(files, std::move(material.photos.output));
  append(files, material.copies->output());
  return write_and_tell(o.folder, write_up_mark, std::move(files),
                        o.replace ? Existing::replace : Existing::keep, paths_read(material));
}

}  // namespace hailwright::cli
