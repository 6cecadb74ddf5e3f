# One interface target carries the warnings, so that every target has the same ones.
add_library(otherskein_warnings INTERFACE)
if(CMAKE_CXX_COMPILER_ID MATCHES "GNU|Clang")
  target_compile_options(otherskein_warnings INTERFACE
    -Wall -Wextra -Wpedantic -Wconversion -Wshadow -Wnon-virtual-dtor -Wold-style-cast
    -Woverloaded-virtual -Wdouble-promotion -Wformat=2)
  if(OTHERSKEIN_WERROR)
    target_compile_options(otherskein_warnings INTERFACE -Werror)
  endif()
elseif(MSVC)
  target_compile_options(otherskein_warnings INTERFACE /W4 /permissive- /utf-8)
  if(OTHERSKEIN_WERROR)
    target_compile_options(otherskein_warnings INTERFACE /WX)
  endif()
endif()

# otherskein_folder(NAME LINKS ...): the library of the folder src/NAME.
# What a folder may include is what it links here; tests/layers_test.cmake reads the includes.
function(otherskein_folder name)
  cmake_parse_arguments(arg "" "" "LINKS" ${ARGN})
  file(GLOB_RECURSE sources CONFIGURE_DEPENDS
    "${CMAKE_CURRENT_SOURCE_DIR}/*.cpp" "${CMAKE_CURRENT_SOURCE_DIR}/*.h" "${CMAKE_CURRENT_SOURCE_DIR}/*.qrc")
  list(FILTER sources EXCLUDE REGEX "/main\\.cpp$")
  add_library(otherskein_${name} STATIC ${sources})
  target_include_directories(otherskein_${name} PUBLIC "${CMAKE_SOURCE_DIR}/src")
  target_link_libraries(otherskein_${name} PUBLIC ${arg_LINKS} PRIVATE otherskein_warnings)
  target_compile_definitions(otherskein_${name} PUBLIC
    QT_NO_CAST_FROM_ASCII QT_NO_CAST_TO_ASCII QT_NO_FOREACH QT_NO_KEYWORDS)
endfunction()

# otherskein_unity(TARGET): several files a compiler run where the preset asks for it. The debug preset does
# not, so that a file that forgets an include is found.
function(otherskein_unity target)
  set_target_properties(${target} PROPERTIES UNITY_BUILD ${OTHERSKEIN_UNITY} UNITY_BUILD_BATCH_SIZE 8)
endfunction()
