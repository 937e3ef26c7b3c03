# Flags that every target shares. Two of them are about the numbers, not the speed: without
# contraction and without Eigen's vector kernels, native and WebAssembly add in the same order and
# round alike, so both doors give the same findings (docs/same-numbers.md).
add_library(awlmark_flags INTERFACE)
target_compile_features(awlmark_flags INTERFACE cxx_std_20)
target_compile_definitions(awlmark_flags INTERFACE EIGEN_DONT_VECTORIZE EIGEN_MPL2_ONLY)
target_compile_options(awlmark_flags INTERFACE -ffp-contract=off -Wall -Wextra -Wshadow -Wnon-virtual-dtor
  # Structs of the document are made with the members at hand; the rest keep their defaults.
  -Wno-missing-field-initializers)
if(CMAKE_CXX_COMPILER_ID STREQUAL "GNU")
  target_compile_options(awlmark_flags INTERFACE -Wno-restrict)  # g++ 12 warns falsely on std::string operator+
endif()
if(AWLMARK_UNITY)
  target_compile_options(awlmark_flags INTERFACE -Wno-shadow)  # of names that only the joining brings together
endif()
if(AWLMARK_WERROR)
  target_compile_options(awlmark_flags INTERFACE -Werror)
endif()

# Header-only libraries, laid out by tools/deps.sh from Debian's packages.
set(AWLMARK_DEPS "${CMAKE_SOURCE_DIR}/.deps/include")
if(NOT EXISTS "${AWLMARK_DEPS}/Eigen")
  message(FATAL_ERROR "No libraries in .deps/include: run tools/deps.sh first (./run and ./test do).")
endif()
target_include_directories(awlmark_flags SYSTEM INTERFACE "${AWLMARK_DEPS}")
# Nothing of the build folder is on the include path, so that ccache shares objects between folders.
target_include_directories(awlmark_flags INTERFACE "${CMAKE_SOURCE_DIR}/engine")

if(AWLMARK_SANITIZE)
  target_compile_options(awlmark_flags INTERFACE -fsanitize=address,undefined -fno-sanitize-recover=all -fno-omit-frame-pointer -g1)
  target_link_options(awlmark_flags INTERFACE -fsanitize=address,undefined)
endif()
if(EMSCRIPTEN)
  target_compile_options(awlmark_flags INTERFACE -fwasm-exceptions)
  target_link_options(awlmark_flags INTERFACE -fwasm-exceptions)
else()
  find_program(CCACHE ccache)
  if(CCACHE)
    set(CMAKE_CXX_COMPILER_LAUNCHER "${CCACHE}")
  endif()
endif()
