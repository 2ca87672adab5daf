#include "cli/input_copies.hpp"

#include <algorithm>
#include <filesystem>
#include <functional>
#include <map>
#include <memory>
#include <utility>

#include "cli/byte_source.hpp"
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
  expects(!file.sha256.empty(), "a log that was read to its end");
  return {std::move(path), std::move(name), file.sha256, file.size};
}

constexpr const char* changed = "was changed by another program while it was read";
constexpr const char* changed_mend = "run again when nothing is added to it any more";

std::string the_file_changed() {
  return std::string("the file ") + changed;
}

/// Opens a log; at its end `told` gets its checksum and size, and says what is wrong with it.
OpenedLog open_summed(const std::string& path,
                      std::function<std::string(std::string sha256, std::uint64_t size)> told) {
  struct Passed {
    Sha256 sum;
    std::uint64_t size = 0;
  };
  const auto passed = std::make_shared<Passed>();
  return open_log_file(
      path, {[passed](std::string_view piece) {
               passed->sum.add(piece);
               passed->size += piece.size();
             },
             [passed, told = std::move(told)] { return told(passed->sum.hex(), passed->size); }});
}

}  // namespace

FilesRead::File* FilesRead::find(const std::string& whole_path) {
  const auto known = std::find_if(files_.begin(), files_.end(),
                                  [&](const File& file) { return file.whole == whole_path; });
  return known == files_.end() ? nullptr : &*known;
}

Loaded FilesRead::load(const std::string& path, std::size_t largest) {
  if (path.empty()) return load_file(path, largest);  // it has no whole path, and is not there
  const std::string whole_path = whole(path);
  File* const known = find(whole_path);
  if (known != nullptr && known->bytes) return {known->bytes, {}, {}};
  Loaded loaded = load_file(path, largest);
  if (!loaded.text) return loaded;
  std::string sum = sha256_hex(*loaded.text);
  if (known == nullptr) {
    files_.push_back({path, whole_path, loaded.text, std::move(sum), loaded.text->size()});
  } else {
    if (!known->sha256.empty() && known->sha256 != sum)
      return {std::nullopt, changed, changed_mend};
    *known = {known->path, whole_path, loaded.text, std::move(sum), loaded.text->size()};
  }
  return loaded;
}

OpenedLog FilesRead::open_log(const std::string& path) {
  if (path.empty()) return open_log_file(path);
  std::string whole_path = whole(path);
  File* file = find(whole_path);
  OpenedLog opened = open_summed(path, [this, whole_path](std::string sum, std::uint64_t size) {
    File& read = *find(whole_path);
    if (!read.sha256.empty() && read.sha256 != sum) return the_file_changed();
    read.sha256 = std::move(sum);
    read.size = size;
    return std::string();
  });
  if (opened.bytes && file == nullptr)
    files_.push_back({path, std::move(whole_path), std::nullopt, {}, 0});
  return opened;
}

Loader FilesRead::loader() {
  return [this](const std::string& path, std::size_t largest) { return load(path, largest); };
}

LogOpener FilesRead::log_opener() {
  return [this](const std::string& path) { return open_log(path); };
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
  return [this, record](const std::string& path, std::size_t) {
    const FilesRead::File* file = find(path);
    return file != nullptr && file->bytes ? Loaded{file->bytes, {}, {}} : no_copy(path, record);
  };
}

LogOpener InputCopies::log_opener(const std::string& record) const {
  return [this, record](const std::string& path) -> OpenedLog {
    const FilesRead::File* file = find(path);
    if (file == nullptr) {
      Loaded none = no_copy(path, record);
      return {std::nullopt, std::move(none.problem), std::move(none.hint)};
    }
    return open_summed(file->path, [file](const std::string& sum, std::uint64_t) {
      return sum == file->sha256 ? std::string() : the_file_changed();
    });
  };
}

const FilesRead::File* InputCopies::find(const std::string& path) const {
  const auto found = std::find_if(copies_.begin(), copies_.end(),
                                  [&](const Copy& copy) { return copy.path == path; });
  return found == copies_.end() ? nullptr : found->file;
}

Loaded InputCopies::no_copy(const std::string& path, const std::string& record) const {
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
  std::map<std::uint32_t, std::uint32_t> logs;  // whose lines are kept one by one
  const auto moved = [&](SourceSpan where) {
    if (where.file == 0) return where;
    const FilesRead::File* file = find(copies.name(where.file));
    const std::string& shown = file == nullptr ? copies.name(where.file) : file->path;
    if (file == nullptr || file->bytes) {
      where.file = sources.add(shown, copies.text(where.file));
      return where;
    }
    const auto [log, is_new] = logs.try_emplace(where.file, 0);
    if (is_new) log->second = sources.add_unkept(shown);
    sources.keep_line(log->second, where.line, std::string(copies.line(where.file, where.line)));
    where.file = log->second;
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
  for (const Copy& copy : copies_) {
    const FilesRead::File& file = *copy.file;
    if (file.bytes) {
      files.push_back({copy.path, *file.bytes});
    } else {
      files.push_back({copy.path, {}, LargeFile{file.path, file.sha256, file.size}});
    }
  }
  return files;
}

}  // namespace hailwright::cli
