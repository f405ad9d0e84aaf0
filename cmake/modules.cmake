# hw_module(libs/values DEPENDS fmt::fmt) makes the static library hw_values of every .cpp of the folder that is not a
# test, and the test program values_test of every *_test.cpp. Third-party packages are named in DEPENDS as well.
function(hw_module folder)
  cmake_parse_arguments(arg "" "TEST_FIXTURE;TEST_ON_POSTGRES" "DEPENDS;TEST_DEPENDS" ${ARGN})
  get_filename_component(name ${folder} NAME)
  file(GLOB sources CONFIGURE_DEPENDS ${CMAKE_SOURCE_DIR}/${folder}/*.cpp ${CMAKE_SOURCE_DIR}/${folder}/*.h)
  set(tests ${sources})
  list(FILTER sources EXCLUDE REGEX "_test\\.cpp$")
  list(FILTER tests INCLUDE REGEX "_test\\.cpp$")
  set(code ${sources})
  list(FILTER code INCLUDE REGEX "\\.cpp$")
  if(code)
    add_library(hw_${name} STATIC ${sources})
    target_include_directories(hw_${name} PUBLIC ${CMAKE_SOURCE_DIR})
    target_link_libraries(hw_${name} PUBLIC ${arg_DEPENDS} PRIVATE hw_warnings)
    if(name IN_LIST HW_CARRYING)
      target_compile_options(hw_${name} PRIVATE $<$<CONFIG:Release>:-O1>)
      if(HW_SANITIZE)
        # These presets compile at -O0, where GCC does not see that nothing follows HW_ASSERT(false, ...).
        target_compile_options(hw_${name} PRIVATE -Wno-return-type)
      endif()
    elseif(HW_SANITIZE)
      target_compile_options(hw_${name} PRIVATE -O1)  # what computes would be waited for
    endif()
  else()
    add_library(hw_${name} INTERFACE)
    target_include_directories(hw_${name} INTERFACE ${CMAKE_SOURCE_DIR})
    target_link_libraries(hw_${name} INTERFACE ${arg_DEPENDS})
  endif()
  if(tests)
    hw_test(${name}_test SOURCES ${tests} DEPENDS hw_${name} ${arg_TEST_DEPENDS} FIXTURE "${arg_TEST_FIXTURE}"
            ON_POSTGRES "${arg_TEST_ON_POSTGRES}")
  endif()
endfunction()

# The program alone is built by default; the target "tests" builds the test programs.
add_custom_target(tests)

# The one thing that is compiled differently in another folder.
add_library(hw_test_places STATIC EXCLUDE_FROM_ALL ${CMAKE_SOURCE_DIR}/tests/places/places.cpp)
target_include_directories(hw_test_places PUBLIC ${CMAKE_SOURCE_DIR})
target_compile_definitions(hw_test_places PRIVATE HW_SOURCE_DIR="${CMAKE_SOURCE_DIR}" HW_BUILD_DIR="${CMAKE_BINARY_DIR}")

# One GoogleTest program; each of its tests is a test of ctest. With ON_POSTGRES a filter: those that it lets through run
# once more, on PostgreSQL.
function(hw_test name)
  cmake_parse_arguments(arg "" "TIMEOUT;FIXTURE;ON_POSTGRES" "SOURCES;DEPENDS" ${ARGN})
  if(NOT arg_TIMEOUT)
    set(arg_TIMEOUT 120)
  endif()
  add_executable(${name} EXCLUDE_FROM_ALL ${arg_SOURCES})
  add_dependencies(tests ${name})
  # Tests run once and are compiled each time: without optimising that takes half as long.
  target_compile_options(${name} PRIVATE $<$<CONFIG:Release>:-O0>)
  target_link_libraries(${name} PRIVATE ${arg_DEPENDS} hw_test_places hw_test_database GTest::gtest GTest::gmock GTest::gtest_main hw_warnings)
  include(GoogleTest)
  gtest_discover_tests(${name} DISCOVERY_TIMEOUT 60 PROPERTIES TIMEOUT ${arg_TIMEOUT}
                       FIXTURES_REQUIRED "${arg_FIXTURE}")
  if(arg_ON_POSTGRES)
    gtest_discover_tests(${name} TEST_PREFIX "OnPostgres." TEST_FILTER "${arg_ON_POSTGRES}" DISCOVERY_TIMEOUT 60
                         TEST_LIST ${name}_on_postgres
                         PROPERTIES TIMEOUT ${arg_TIMEOUT} FIXTURES_REQUIRED postgres ENVIRONMENT HOURWRIGHT_ON=postgres)
  endif()
endfunction()
