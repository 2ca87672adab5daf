# Builds and runs a project that uses hailwright.
#   cmake -D way=installed|nested -D hailwright_source=DIR -D hailwright_build=DIR -D scratch=DIR
#         -D compiler=PATH -D launcher=PATH -D sanitize=KINDS -P consume.cmake
set(options "-DCMAKE_CXX_COMPILER=${compiler}" "-DCMAKE_CXX_COMPILER_LAUNCHER=${launcher}"
            "-DCMAKE_CXX_FLAGS=-O0")

if(way STREQUAL "installed")
  # A fresh place each time, other than the one configured: nothing old and no path of the build
  # may be needed.
  set(prefix "${scratch}/prefix")
  file(REMOVE_RECURSE "${prefix}" "${scratch}/build")
  execute_process(COMMAND ${CMAKE_COMMAND} --install "${hailwright_build}" --prefix "${prefix}"
                  OUTPUT_QUIET COMMAND_ERROR_IS_FATAL ANY)
  file(GLOB_RECURSE package_files "${prefix}/*.cmake")
  if(NOT package_files)
    message(FATAL_ERROR "no package files were installed under ${prefix}")
  endif()
  foreach(file IN LISTS package_files)
    file(READ "${file}" content)
    string(FIND "${content}" "${hailwright_source}" found)
    if(NOT found EQUAL -1)
      message(FATAL_ERROR "${file} names the folder it was built from")
    endif()
  endforeach()
  list(APPEND options "-DCMAKE_PREFIX_PATH=${prefix}")
  if(sanitize)  # the library was built so
    list(APPEND options "-DCMAKE_EXE_LINKER_FLAGS=-fsanitize=${sanitize}")
  endif()
else()
  list(APPEND options "-Dhailwright_source=${hailwright_source}" "-Dhailwright_UNITY=ON")
endif()

execute_process(COMMAND ${CMAKE_COMMAND} -G Ninja -S "${CMAKE_CURRENT_LIST_DIR}/${way}"
                        -B "${scratch}/build" ${options}
                COMMAND_ERROR_IS_FATAL ANY)
execute_process(COMMAND ${CMAKE_COMMAND} --build "${scratch}/build" --parallel 2
                COMMAND_ERROR_IS_FATAL ANY)
execute_process(COMMAND "${scratch}/build/consumer" COMMAND_ERROR_IS_FATAL ANY)
