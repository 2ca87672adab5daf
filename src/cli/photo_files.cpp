#include "cli/photo_files.hpp"

#include <filesystem>
#include <system_error>
#include <utility>
#include <variant>

#include "cli/files.hpp"
#include "hailwright/report/photo.hpp"

namespace hailwright::cli {

namespace {

namespace fs = std::filesystem;

constexpr const char* code = "F02";

/// Up and out, or through a link: a write-up would publish what lies elsewhere on this machine.
bool lies_outside(const std::string& path, const std::string& folder) {
  std::error_code unknown;  // then it is not there, which is told when it is read
  const fs::path whole = fs::weakly_canonical(path, unknown);
  if (unknown) return false;
  const fs::path home = fs::weakly_canonical(folder.empty() ? "." : folder, unknown);
  return !unknown && whole.lexically_relative(home).begin()->string() == "..";
}

class PhotoReader {
public:
  explicit PhotoReader(PhotosRead& read) : read_(read) {}

  void record(const PhotosNamed& named) {
    auto& photos = read_.of_records.emplace_back();
    for (const PhotoName& name : named.photos) {
      const Photo* found = photo(name, named.folder);
      if (found == nullptr) continue;
      Photo shown = *found;
      shown.title = name.shows;
      shown.description = name.description;
      photos.emplace(name.file, std::move(shown));
    }
  }

private:
  /// The cleaned photo without its words; nullptr, with a message, where there is none.
  const Photo* photo(const PhotoName& name, const std::string& folder) {
    if (fs::path(name.file).is_absolute()) {
      problem(name, {"is named by its whole path, which a reader would see in the record",
                     "name it from the folder of the record"});
      return nullptr;
    }
    const std::string path = (fs::path(folder) / name.file).lexically_normal().string();
    const auto known = by_path_.find(path);
    if (known != by_path_.end()) return &known->second;
    if (lies_outside(path, folder)) {
      problem(name, {"lies outside the folder of the record, and a write-up shows it to all",
                     "copy it into that folder, and name the copy"});
      return nullptr;
    }
    const Loaded loaded = load_file(path, largest_photo);
    read_.paths.push_back(path);
    if (!loaded.text) {
      problem(name, {loaded.problem, loaded.hint});
      return nullptr;
    }
    auto cleaned = clean_photo(*loaded.text);
    if (const auto* fault = std::get_if<PhotoProblem>(&cleaned)) {
      problem(name, *fault);
      return nullptr;
    }
    return keep(path, std::get<CleanPhoto>(std::move(cleaned)));
  }

  const Photo* keep(const std::string& path, CleanPhoto clean) {
    Photo photo;
    photo.file = photo_output_name(by_path_.size() + 1, path, clean.media_type);
    photo.media_type = std::move(clean.media_type);
    photo.bytes = std::move(clean.bytes);
    photo.width = clean.width;
    photo.height = clean.height;
    read_.output.push_back({photo.file, photo.bytes});
    return &by_path_.emplace(path, std::move(photo)).first->second;
  }

  void problem(const PhotoName& name, const PhotoProblem& fault) {
    std::vector<std::string> hints;
    if (!fault.mend.empty()) hints.push_back(fault.mend);
    hints.emplace_back("with --without-photos, the write-up tells photos in words alone");
    read_.notes.error(code, name.where, "the photo " + name.file + " " + fault.problem,
                      std::move(hints));
  }

  PhotosRead& read_;
  std::map<std::string, Photo> by_path_;
};

}  // namespace

PhotosRead read_photos(const std::vector<PhotosNamed>& records) {
  PhotosRead read;
  PhotoReader reader(read);
  for (const PhotosNamed& named : records)
    reader.record(named);
  return read;
}

std::string photo_output_name(std::size_t number, const std::string& file,
                              const std::string& media_type) {
  constexpr std::size_t longest = 40;
  std::string safe;
  for (char c : fs::path(file).stem().string()) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
    const bool plain = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9');
    if (plain) {
      safe += c;
    } else if (!safe.empty() && safe.back() != '-') {
      safe += '-';
    }
    if (safe.size() == longest) break;
  }
  if (safe.ends_with('-')) safe.pop_back();
  if (!safe.empty()) safe.insert(0, "-");
  return "photos/" + std::to_string(number) + safe + (media_type == "image/png" ? ".png" : ".jpg");
}

}  // namespace hailwright::cli
