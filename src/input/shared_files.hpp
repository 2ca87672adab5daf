#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <tuple>

#include "hailwright/core/diagnostic.hpp"
#include "hailwright/core/source.hpp"
#include "hailwright/input/readers.hpp"
#include "hailwright/model/place_layout.hpp"
#include "input/protocol_reader.hpp"

namespace hailwright::input {

/// A panel file as it was read. `fine`: without errors and open answers.
struct PanelRead {
  Panel panel;
  bool fine = false;
};

/// What was read of one file, and whether that took an error. Places in it name the file by its
/// number, so there is one for each number that the file had.
template <class T>
struct KeptFile {
  struct Reading {
    T value;
    bool errors = false;
  };
  std::string text;
  bool unreadable = false;  ///< no YAML, or of another kind
  std::map<std::uint32_t, Reading> by_number;
};
template <class T>
using KeptFiles = std::map<std::string, KeptFile<T>>;

/// The places of a protocol on a panel, each known by its path and number.
struct KeptLayout {
  std::optional<PlaceLayout> layout;
  bool errors = false;
};
using LayoutKey = std::tuple<std::string, std::uint32_t, std::string, std::uint32_t>;

/// Number of a file of this name, 0 when there is none.
std::uint32_t number_of(const SourceSet& sources, const std::string& name);
/// Whether there is an error among the messages from this one on.
bool has_errors_since(const Diagnostics& notes, std::size_t first);

}  // namespace hailwright::input

namespace hailwright {

struct SharedFiles::Kept {
  input::KeptFiles<input::ProtocolRead> protocols;
  input::KeptFiles<input::PanelRead> panels;
  std::map<input::LayoutKey, input::KeptLayout> layouts;
};

}  // namespace hailwright

namespace hailwright::input {

/// One record's way to the files that it shares with others: read the first time, taken as they
/// were read from then on.
class SharedReading {
public:
  /// @param kept  nullptr: nothing is kept
  SharedReading(SharedFiles::Kept* kept, SourceSet& sources, Diagnostics& notes)
      : kept_(kept), sources_(sources), notes_(notes) {}

  /// @param read  gives what is in the file, or nothing when it cannot be opened
  template <class Read>
  std::optional<ProtocolRead> protocol(const std::string& path, Read read) {
    return kept_ == nullptr ? read() : once(kept_->protocols, path, read);
  }
  template <class Read>
  std::optional<PanelRead> panel(const std::string& path, Read read) {
    return kept_ == nullptr ? read() : once(kept_->panels, path, read);
  }
  /// The places of a protocol and a panel that stand in these files, as they were read.
  std::optional<PlaceLayout> layout(const std::string& protocol_path, const Protocol& protocol,
                                    const std::string& panel_path, const Panel& panel);

  /// A file has errors which were reported with an earlier record.
  [[nodiscard]] bool met_known_error() const { return known_error_; }

private:
  template <class T, class Read>
  std::optional<T> once(KeptFiles<T>& files, const std::string& path, Read read) {
    const auto known = files.find(path);
    if (known != files.end()) {
      const KeptFile<T>& file = known->second;
      const auto before = file.by_number.find(sources_.add(path, file.text));
      if (file.unreadable) {
        known_error_ = true;
        return std::nullopt;
      }
      if (before != file.by_number.end()) {
        known_error_ = known_error_ || before->second.errors;
        return before->second.value;
      }
    }
    const std::size_t first = notes_.items().size();
    std::optional<T> value = read();
    keep(files, path, value, first);
    return value;
  }

  /// A file that is not there is the concern of each record that names it.
  template <class T>
  void keep(KeptFiles<T>& files, const std::string& path, const std::optional<T>& value,
            std::size_t first) {
    const std::uint32_t number = number_of(sources_, path);
    if (number == 0) return;
    KeptFile<T>& file = files[path];
    file.text = sources_.text(number);
    file.unreadable = !value;
    if (!value) return;
    const bool errors = has_errors_since(notes_, first);
    file.by_number.insert_or_assign(number, typename KeptFile<T>::Reading{*value, errors});
  }

  SharedFiles::Kept* kept_;
  SourceSet& sources_;
  Diagnostics& notes_;
  bool known_error_ = false;
};

}  // namespace hailwright::input
