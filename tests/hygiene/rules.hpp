#pragma once

#include "hygiene/source_tree.hpp"

/// The house rules that a program can check. Each looks at a tree of files and names what breaks
/// it, so that a rule can be tried on a few invented lines as well as on the project.
namespace hygiene {

/// An include of ours points down the list of layers, or stays in its own.
Findings check_layers(const Tree& tree);

/// A header is read once, and the unit that implements it includes it before all else: so that
/// compiling the unit shows whether the header compiles alone.
Findings check_own_headers(const Tree& tree);

/// Each outside library is used behind its one door, and headers show none of them.
Findings check_doors(const Tree& tree);

/// Only the command line touches files, terminal, clock and environment, and ends the program.
Findings check_reach(const Tree& tree);

/// Every unit of the library has a test of its own, or a reason why not in
/// tests/hygiene/untested_units.txt.
Findings check_units_have_tests(const Tree& tree);

/// No source file has more than 500 lines.
Findings check_lengths(const Tree& tree);

/// No path of somebody's machine, no note of work left undone.
Findings check_leftovers(const Tree& tree);

/// No two citations have the same id.
Findings check_citation_ids(const Tree& tree);

/// How many citations `check_citation_ids` sees: a rule that sees none proves nothing.
std::size_t count_citations(const Tree& tree);

/// Nothing the program can print claims what a home test cannot show, except where
/// tests/hygiene/allowed_words.txt says why a sentence may.
Findings check_claims(const Tree& tree);

/// Each page under docs/methods has the same headings in the same order, stands in the index there,
/// and names no source file or test that is not there.
Findings check_method_pages(const Tree& tree);

/// Each JSON Schema under docs/schemas says its draft, ends in a line break, and is linked by a
/// page of docs.
Findings check_schemas(const Tree& tree);

/// Names of tests hold no ';': CMake would make two tests of them, which match none and so hold.
Findings check_test_names(const Tree& tree);

}  // namespace hygiene
