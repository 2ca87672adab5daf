#include "hailwright/core/source.hpp"

#include "hailwright/core/contract.hpp"

namespace hailwright {

std::uint32_t SourceSet::add(std::string name, std::string text) {
  // A file that several records name is one file.
  for (std::size_t i = 0; i < files_.size(); ++i) {
    if (files_[i].name == name && files_[i].text == text && !files_[i].starts.empty())
      return static_cast<std::uint32_t>(i + 1);
  }
  std::vector<std::size_t> starts{0};
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] == '\n') starts.push_back(i + 1);
  }
  files_.push_back({std::move(name), std::move(text), std::move(starts), {}});
  return static_cast<std::uint32_t>(files_.size());
}

std::uint32_t SourceSet::add_unkept(std::string name) {
  files_.push_back({std::move(name), {}, {}, {}});
  return static_cast<std::uint32_t>(files_.size());
}

void SourceSet::keep_line(std::uint32_t file, int line, std::string text) {
  expects(at(file).starts.empty(), "lines are kept one by one of a file that is not kept whole");
  files_[file - 1].lines.insert_or_assign(line, std::move(text));
}

const SourceSet::File& SourceSet::at(std::uint32_t file) const {
  expects(file >= 1 && file <= files_.size(), "a file number that was never given out");
  return files_[file - 1];
}

const std::string& SourceSet::name(std::uint32_t file) const {
  return at(file).name;
}

const std::string& SourceSet::text(std::uint32_t file) const {
  return at(file).text;
}

std::string_view SourceSet::line(std::uint32_t file, int line) const {
  const File& f = at(file);
  if (f.starts.empty()) {
    const auto kept = f.lines.find(line);
    return kept == f.lines.end() ? std::string_view() : std::string_view(kept->second);
  }
  if (line < 1 || static_cast<std::size_t>(line) > f.starts.size()) return {};
  const std::size_t begin = f.starts[static_cast<std::size_t>(line) - 1];
  std::size_t end = f.text.find('\n', begin);
  if (end == std::string::npos) end = f.text.size();
  std::string_view view(f.text.data() + begin, end - begin);
  if (!view.empty() && view.back() == '\r') view.remove_suffix(1);
  return view;
}

std::size_t count_characters(std::string_view text) {
  std::size_t count = 0;
  for (const char c : text) {
    if ((static_cast<unsigned char>(c) & 0xC0U) != 0x80U) ++count;
  }
  return count;
}

}  // namespace hailwright
