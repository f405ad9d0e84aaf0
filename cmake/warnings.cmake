add_library(hw_warnings INTERFACE)
target_compile_options(hw_warnings INTERFACE -Wall -Wextra -Wpedantic -Wshadow -Wconversion -Wnon-virtual-dtor
  -Woverloaded-virtual -Wimplicit-fallthrough -Werror)
if(CMAKE_CXX_COMPILER_ID STREQUAL "GNU")
  # GCC 12 reports these inside its own library headers when it inlines at -O2 (known false positives).
  target_compile_options(hw_warnings INTERFACE -Wno-maybe-uninitialized -Wno-restrict -Wno-stringop-overflow
    -Wno-array-bounds -Wno-dangling-pointer)
  if(CMAKE_UNITY_BUILD)
    # Meant for headers; GCC takes a joined file for one.
    target_compile_options(hw_warnings INTERFACE -Wno-subobject-linkage)
  endif()
endif()
