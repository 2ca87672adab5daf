#include "input/shared_files.hpp"

#include <algorithm>

namespace hailwright::input {

std::uint32_t number_of(const SourceSet& sources, const std::string& name) {
  for (std::uint32_t file = 1; file <= sources.files(); ++file) {
    if (sources.name(file) == name) return file;
  }
  return 0;
}

bool has_errors_since(const Diagnostics& notes, std::size_t first) {
  return std::any_of(notes.items().begin() + static_cast<std::ptrdiff_t>(first),
                     notes.items().end(),
                     [](const Diagnostic& d) { return d.severity == Severity::error; });
}

std::optional<PlaceLayout> SharedReading::layout(const std::string& protocol_path,
                                                 const Protocol& protocol,
                                                 const std::string& panel_path,
                                                 const Panel& panel) {
  const LayoutKey key{protocol_path, number_of(sources_, protocol_path), panel_path,
                      number_of(sources_, panel_path)};
  if (kept_ != nullptr) {
    const auto known = kept_->layouts.find(key);
    if (known != kept_->layouts.end()) {
      known_error_ = known_error_ || known->second.errors;
      return known->second.layout;
    }
  }
  Checked<PlaceLayout> found = layout_places(protocol, panel, usual_place_radius);
  if (kept_ != nullptr)
    kept_->layouts.emplace(key, KeptLayout{found.value, found.notes.has_errors()});
  notes_.append(std::move(found.notes));
  return std::move(found.value);
}

}  // namespace hailwright::input

namespace hailwright {

SharedFiles::SharedFiles() : kept_(std::make_unique<Kept>()) {}
SharedFiles::~SharedFiles() = default;
SharedFiles::SharedFiles(SharedFiles&& other) noexcept = default;
SharedFiles& SharedFiles::operator=(SharedFiles&& other) noexcept = default;

}  // namespace hailwright
