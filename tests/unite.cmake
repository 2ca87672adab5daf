# Writes one source that holds several files of tests, each in a namespace of its own, so that their
# local names may be alike:
#   cmake -D OUTPUT=FILE -P unite.cmake FOLDER FILE…      files relative to the folder
# What they include stands before, outside of the namespaces; within them it is then there already.
math(EXPR last "${CMAKE_ARGC} - 1")
foreach(i RANGE ${last})
  list(APPEND arguments "${CMAKE_ARGV${i}}")
endforeach()
list(FIND arguments "${CMAKE_CURRENT_LIST_FILE}" script)
math(EXPR first "${script} + 2")
math(EXPR folder "${script} + 1")
list(GET arguments ${folder} folder)
list(SUBLIST arguments ${first} -1 files)

foreach(file IN LISTS files)
  file(STRINGS "${folder}/${file}" lines REGEX "^#include ")
  list(APPEND includes ${lines})
  string(MAKE_C_IDENTIFIER "${file}" name)
  string(APPEND bodies "namespace ${name} {\n#include \"${folder}/${file}\"\n}\n")
endforeach()
list(REMOVE_DUPLICATES includes)
list(JOIN includes "\n" includes)
file(WRITE "${OUTPUT}" "${includes}\n\n${bodies}")
