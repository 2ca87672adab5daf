#include "cli/input_copies.hpp"

#include <algorithm>
#include <filesystem>
#include <utility>

#include "cli/files.hpp"
#include "hailwright/core/contract.hpp"
#include "hailwright/core/digest.hpp"

namespace hailwright::cli {

namespace {

namespace fs = std::filesystem;

std::string whole(const std::string& path) {
  return fs::absolute(path).lexically_normal().string();
}

/// What both paths begin with.
fs::path shared_beginning(const fs::path& a, const fs::path& b) {
  const auto [end, ignored] = std::mismatch(a.begin(), a.end(), b.begin(), b.end());
  fs::path shared;
  for (auto part = a.begin(); part != end; ++part)
    shared /= *part;
  return shared;
}

InputCopy about(const FilesRead::File& file, std::string path, std::string name) {
  return {std::move(path), std::move(name), sha256_hex(file.bytes), file.bytes.size()};
}

}  // namespace

Loaded FilesRead::load(const std::string& path, std::size_t largest) {
  if (path.empty()) return load_file(path, largest);  // it has no whole path, and is not there
  const std::string whole_path = whole(path);
  const auto known = std::find_if(files_.begin(), files_.end(),
                                  [&](const File& file) { return file.whole == whole_path; });
  if (known != files_.end()) return {known->bytes, {}, {}};
  Loaded loaded = load_file(path, largest);
  if (loaded.text) files_.push_back({path, whole_path, *loaded.text});
  return loaded;
}

Loader FilesRead::loader() {
  return [this](const std::string& path, std::size_t largest) { return load(path, largest); };
}

std::vector<InputCopy> inputs_named_as_typed(const FilesRead& files) {
  std::vector<InputCopy> inputs;
  for (const FilesRead::File& file : files.all())
    inputs.push_back(about(file, file.path, file.path));
  return inputs;
}

InputCopies::InputCopies(const FilesRead& files) {
  fs::path folder;
  for (const FilesRead::File& file : files.all()) {
    const fs::path above = fs::path(file.whole).parent_path();
    folder = copies_.empty() ? above : shared_beginning(folder, above);
    copies_.push_back({&file, {}});
  }
  for (Copy& copy : copies_) {
    const fs::path inside = fs::path(copy.file->whole).lexically_relative(folder);
    copy.path = (fs::path("inputs") / inside).generic_string();
  }
}

const std::string& InputCopies::copy_of(const std::string& path) const {
  const std::string whole_path = whole(path);
  const auto found = std::find_if(copies_.begin(), copies_.end(),
                                  [&](const Copy& copy) { return copy.file->whole == whole_path; });
  expects(found != copies_.end(), "the copy of a file that was read");
  return found->path;
}

Loader InputCopies::loader(const std::string& record) const {
  return [this, record](const std::string& path, std::size_t) { return load(path, record); };
}

Loaded InputCopies::load(const std::string& path, const std::string& record) const {
  for (const Copy& copy : copies_) {
    if (copy.path == path) return {copy.file->bytes, {}, {}};
  }
  for (const Copy& copy : copies_) {
    if (copy.file->whole != path) continue;
    const fs::path from = fs::path(record).parent_path();
    return {std::nullopt, "is named by its whole path, by which nobody else finds a copy of it",
            "name it from the folder of the record: " +
                fs::path(copy.path).lexically_relative(from).generic_string()};
  }
  return {std::nullopt, "has no copy that its name leads to",
          "name it from the folder of the record"};
}

Diagnostics InputCopies::said_of_files(const Diagnostics& notes, const SourceSet& copies,
                                       SourceSet& sources) const {
  const auto moved = [&](SourceSpan where) {
    if (where.file == 0) return where;
    const std::string& name = copies.name(where.file);
    const auto found = std::find_if(copies_.begin(), copies_.end(),
                                    [&](const Copy& copy) { return copy.path == name; });
    const std::string& shown = found == copies_.end() ? name : found->file->path;
    where.file = sources.add(shown, copies.text(where.file));
    return where;
  };
  Diagnostics said;
  for (Diagnostic note : notes.items()) {
    note.where = moved(note.where);
    for (Related& related : note.related)
      related.where = moved(related.where);
    said.add(std::move(note));
  }
  return said;
}

std::vector<InputCopy> InputCopies::for_write_up() const {
  std::vector<InputCopy> inputs;
  for (const Copy& copy : copies_)
    inputs.push_back(about(*copy.file, copy.path, copy.path));
  return inputs;
}

std::vector<OutputFile> InputCopies::output() const {
  std::vector<OutputFile> files;
  for (const Copy& copy : copies_)
    files.push_back({copy.path, copy.file->bytes});
  return files;
}

}  // namespace hailwright::cli
