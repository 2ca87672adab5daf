#pragma once

#include <functional>
#include <string>
#include <vector>

#include "hailwright/input/readers.hpp"

namespace hailwright::cli {

/// Records with all that belongs to them, as far as they can be read; all messages of all.
struct RecordsRead {
  SourceSet sources;
  Diagnostics notes;
  std::vector<Test> tests;  ///< one a record when there are no errors
};

/// Reads one more record.
void read_record(const std::string& path, const Loader& load, const LogOpener& open_log,
                 RecordsRead& into);

/// Reads the records that were named on the command line. One that is named twice, also by another
/// path, is an error: its shots and readings would count twice. Their titles are told apart.
RecordsRead read_records(const std::vector<std::string>& paths, const Loader& load,
                         const LogOpener& open_log);

/// Reads them one after the other and holds no more than one, protocols and panels that several
/// name aside. What is wrong with each is said as it comes.
/// @param take  gets each record without errors, and its path
/// @param say   gets the messages of each that has some
/// @return false where a record has errors
bool take_records(const std::vector<std::string>& paths, const Loader& load,
                  const LogOpener& open_log,
                  const std::function<void(const Test&, const std::string&)>& take,
                  const std::function<void(const Diagnostics&, const SourceSet&)>& say);

/// Gives tests of one title the names of their files behind it, with as many folders as it takes,
/// "Rigid A (june/record.yaml)": every table, sheet and picture tells records apart by the title.
/// @param paths  of the records, one a test
void tell_apart(std::vector<Test>& tests, const std::vector<std::string>& paths);
/// The same of the titles alone.
void tell_apart(std::vector<std::string>& titles, const std::vector<std::string>& paths);

}  // namespace hailwright::cli
