#include "cli/record_files.hpp"

#include <algorithm>
#include <filesystem>
#include <iterator>
#include <map>
#include <utility>

#include "cli/files.hpp"
#include "hailwright/core/contract.hpp"

namespace hailwright::cli {

namespace {

namespace fs = std::filesystem;
using Paths = std::vector<std::string>;

/// The last parts of a path, at most so many.
std::string ending(const std::string& path, std::size_t parts) {
  const fs::path normal = fs::path(path).lexically_normal();
  const auto length = static_cast<std::size_t>(std::distance(normal.begin(), normal.end()));
  auto part = normal.begin();
  std::advance(part, length - std::min(length, parts));
  fs::path end;
  for (; part != normal.end(); ++part)
    end /= *part;
  return end.generic_string();
}

bool are_distinct(Paths texts) {
  std::sort(texts.begin(), texts.end());
  return std::adjacent_find(texts.begin(), texts.end()) == texts.end();
}

/// The shortest endings of one length that tell the paths apart.
Paths distinct_endings(const Paths& paths) {
  std::size_t longest = 1;
  for (const std::string& path : paths)
    longest = std::max(longest, path.size());
  for (std::size_t parts = 1; parts <= longest; ++parts) {
    Paths endings;
    for (const std::string& path : paths)
      endings.push_back(ending(path, parts));
    if (are_distinct(endings)) return endings;
  }
  return paths;
}

/// Titles with the numbers of those that have them.
std::map<std::string, std::vector<std::size_t>> by_title(const Paths& titles) {
  std::map<std::string, std::vector<std::size_t>> groups;
  for (std::size_t i = 0; i < titles.size(); ++i)
    groups[titles[i]].push_back(i);
  return groups;
}

/// An error for a record whose file was named before.
void report_named_before(const std::string& path, const std::string& before, const Loader& load,
                         RecordsRead& into) {
  const Loaded loaded = load(path, largest_yaml);
  const SourceSpan whole_file{into.sources.add(path, loaded.text.value_or("")), 0, 0, 0};
  const std::string again = path == before ? "" : ": " + before + " is the same file";
  into.notes.error("C37", whole_file, "the record is named twice on the command line" + again,
                   {"name each record once: its shots and readings would count twice"});
}

}  // namespace

void read_record(const std::string& path, const Loader& load, const LogOpener& open_log,
                 RecordsRead& into) {
  Checked<Test> test = read_test(path, load, into.sources, open_log);
  into.notes.append(std::move(test.notes));
  if (test.value) into.tests.push_back(std::move(*test.value));
}

RecordsRead read_records(const Paths& paths, const Loader& load, const LogOpener& open_log) {
  RecordsRead read;
  for (auto path = paths.begin(); path != paths.end(); ++path) {
    const auto before = std::find_if(paths.begin(), path,
                                     [&](const std::string& p) { return FileSet({p}).has(*path); });
    if (before == path) {
      read_record(*path, load, open_log, read);
    } else {
      report_named_before(*path, *before, load, read);
    }
  }
  if (!read.notes.has_errors()) tell_apart(read.tests, paths);
  return read;
}

bool take_records(const Paths& paths, const Loader& load, const LogOpener& open_log,
                  const std::function<void(const Test&, const std::string&)>& take,
                  const std::function<void(const Diagnostics&, const SourceSet&)>& say) {
  SharedFiles shared;
  FileSet named(Paths{});
  bool sound = true;
  for (const std::string& path : paths) {
    RecordsRead one;
    if (named.add(path)) {
      Checked<Test> test = read_test(path, load, one.sources, open_log, &shared);
      one.notes = std::move(test.notes);
      sound = sound && test.value;
      if (test.value) take(*test.value, path);
    } else {
      const auto before = std::find_if(
          paths.begin(), paths.end(), [&](const std::string& p) { return FileSet({p}).has(path); });
      report_named_before(path, *before, load, one);
      sound = false;
    }
    if (!one.notes.empty()) say(one.notes, one.sources);
  }
  return sound;
}

void tell_apart(std::vector<Test>& tests, const Paths& paths) {
  Paths titles;
  for (const Test& test : tests)
    titles.push_back(test.record.title);
  tell_apart(titles, paths);
  for (std::size_t i = 0; i < tests.size(); ++i)
    tests[i].record.title = titles[i];
}

void tell_apart(std::vector<std::string>& titles, const Paths& paths) {
  expects(titles.size() == paths.size(), "a path for each title");
  // A title with a name behind it can be that of another record: then both get theirs.
  for (std::size_t round = 0; round < titles.size(); ++round) {
    bool all_differ = true;
    for (const auto& [title, numbers] : by_title(titles)) {
      if (numbers.size() == 1) continue;
      all_differ = false;
      Paths of_group;
      for (const std::size_t i : numbers)
        of_group.push_back(paths[i]);
      const Paths endings = distinct_endings(of_group);
      for (std::size_t k = 0; k < numbers.size(); ++k)
        titles[numbers[k]] = title + " (" + endings[k] + ")";
    }
    if (all_differ) return;
  }
}

}  // namespace hailwright::cli
