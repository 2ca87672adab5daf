#include "input/document.hpp"
#include "input/log_format_reader.hpp"
#include "input/panel_reader.hpp"
#include "input/protocol_reader.hpp"
#include "input/record_reader.hpp"
#include "input/specimens_reader.hpp"

namespace hailwright {

Diagnostics check_file(const std::string& path, const Loader& load, SourceSet& sources,
                       const LogOpener& open_log) {
  Diagnostics notes;
  const auto document = input::open_document(path, std::nullopt, load, sources, notes);
  if (!document) return notes;
  switch (document->kind) {
  case FileKind::protocol:
    input::read_protocol(*document, notes);
    break;
  case FileKind::panel:
    input::read_panel(*document, notes);
    break;
  case FileKind::record:
    input::read_record(*document, path, load, sources, notes, open_log);
    break;
  case FileKind::columns:
    input::read_column_map(*document, notes);
    break;
  case FileKind::specimens:
    input::read_specimens(*document, path, load, sources, notes);
    break;
  case FileKind::unknown:
    break;
  }
  return notes;
}

}  // namespace hailwright
