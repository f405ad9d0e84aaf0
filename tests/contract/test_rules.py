"""Each rule finds what it is there for, and lets pass what is right. The trees here never were."""

import unittest

import ratchet
from rules import documented, folders, functions, hosts, includes, security, tests_written, words
from tree import Tree

FUNCTION_70 = "void long_one() {\n" + "  step();\n" * 68 + "}\n"
FUNCTION_9 = "void short_one() {\n" + "  step();\n" * 7 + "}\n"


def found(rule, *arguments, files):
    """Where the rule finds something in a tree of these files (text by path)."""
    return [(violation.path, violation.line) for violation in rule(Tree(files), *arguments)]


class RulesFindViolations(unittest.TestCase):
    def finds(self, rule, path, text, line, *arguments, beside=None):
        self.assertIn((path, line), found(rule, *arguments, files={path: text} | (beside or {})))

    def passes(self, rule, path, text, *arguments, beside=None):
        self.assertEqual([], found(rule, *arguments, files={path: text} | (beside or {})))

    def test_include_from_beside(self):
        self.finds(includes.from_the_root, "src/due/a.cpp", '#include "a.h"\n', 1)
        self.passes(includes.from_the_root, "src/due/a.cpp", '#include "src/due/a.h"\n#include <vector>\n')

    def test_include_of_a_later_folder(self):
        self.finds(includes.flow_downwards, "src/counters/a.cpp", '\n#include "src/due/b.h"\n', 2)
        self.passes(includes.flow_downwards, "src/due/a.cpp", '#include "src/due/b.h"\n#include "src/counters/b.h"\n')
        self.passes(includes.flow_downwards, "src/main.cpp", '#include "src/web/b.h"\n')

    def test_include_of_the_shop_in_libs(self):
        self.finds(includes.libs_know_no_shop, "libs/sql/a.h", '#include "src/due/b.h"\n', 1)
        self.passes(includes.libs_know_no_shop, "libs/sql/a.h", '#include "libs/values/b.h"\n')

    def test_circle_in_libs(self):
        one, other = '#include "libs/sql/b.h"\n', '#include "libs/values/a.h"\n'
        self.finds(includes.libs_without_circles, "libs/values/a.h", one, 1, beside={"libs/sql/b.h": other})
        self.passes(includes.libs_without_circles, "libs/values/a.h", "", beside={"libs/sql/b.h": other})

    def test_circle_over_three_folders(self):
        self.finds(includes.libs_without_circles, "libs/a/a.h", '#include "libs/b/b.h"\n', 1, beside={
            "libs/b/b.h": '#include "libs/c/c.h"\n', "libs/c/c.h": '#include "libs/a/a.h"\n'})

    def test_storage_named_outside_main(self):
        text = '#include "src/storage/b.h"\n'
        self.finds(includes.storage_only_in_main, "src/web/a.cpp", text, 1)
        self.passes(includes.storage_only_in_main, "src/main.cpp", text)
        self.passes(includes.storage_only_in_main, "src/storage/a.cpp", text)

    def test_wrapped_library_in_src(self):
        for header in ("sqlite3.h", "expat.h", "libpq-fe.h", "boost/beast/http.hpp", "openssl/ssl.h",
                       "mqtt/async_client.h", "MQTTAsync.h"):
            self.finds(includes.wrapped_libraries, "src/web/a.cpp", f"#include <{header}>\n", 1)
            self.passes(includes.wrapped_libraries, "libs/http/a.cpp", f"#include <{header}>\n")
        self.passes(includes.wrapped_libraries, "src/web/a.cpp", "#include <boost/json.hpp>\n")

    def test_header_without_pragma(self):
        self.finds(includes.once, "src/due/a.h", "int a;\n", 1)
        self.passes(includes.once, "src/due/a.h", "#pragma once\nint a;\n")

    def test_identifier_that_says_nothing(self):
        self.finds(words.identifiers_say_something, "src/due/a.cpp", "int x;\nint date_helper;\n", 2)
        self.finds(words.identifiers_say_something, "src/due/a.h", "class TaskManager;\n", 1)
        self.finds(words.identifiers_say_something, "app/src/a.ts", "const miscThings = 1;\n", 1)
        self.finds(words.identifiers_say_something, "app/src/a.svelte", "<p>x</p>\n<script>\nlet utilOf = 1;\n</script>", 3)

    def test_empty_words_that_stand_elsewhere_pass(self):
        self.passes(words.identifiers_say_something, "src/due/a.cpp",
                    '// common practice\nauto text = "a helper";\nusing X = std::common_type_t<int, long>;\nint utility;\n')
        self.passes(words.identifiers_say_something, "app/src/a.svelte", "<p>common practice</p>\n")

    def test_file_name_that_says_nothing(self):
        for path in ("src/due/date_utils.cpp", "src/due/data.h", "src/helpers/a.h", "app/src/impl.ts"):
            self.finds(words.files_say_something, path, "", 1)
        self.passes(words.files_say_something, "src/due/database_folder.cpp", "")

    def test_word_that_is_not_ours(self):
        self.finds(words.the_right_word, "src/plan/a.h", "struct WorkOrder;\n", 1)
        self.finds(words.the_right_word, "src/plan/a.h", "int\n  spare_parts_count;\n", 2)
        self.passes(words.the_right_word, "src/plan/a.h", "int work_ordered; int spare_minutes; // a work order\n")

    def test_folder_without_readme(self):
        self.assertIn(("src/due/README.md", 1), found(folders.explained, files={"src/due/a.h": ""}))
        self.assertIn(("bench/README.md", 1), found(folders.explained, files={"bench/a.cpp": ""}))
        self.assertIn(("app/src/pages/README.md", 1), found(folders.explained, files={"app/src/pages/a.ts": ""}))
        self.assertEqual([], found(folders.explained, files={
            "src/README.md": "", "src/due/README.md": "", "src/due/a.h": "", ".ci/run": "", "Makefile": ""}))

    def test_readme_without_what_is_refused(self):
        text = "**In**: a. **Out**: b. **Refuses**: c. Example: 2 h.\n"
        self.finds(folders.modules_say_what_they_refuse, "src/due/README.md", "It counts. Example: 2 h\n", 1,
                   beside={"src/due/a.h": ""})
        self.finds(folders.modules_say_what_they_refuse, "src/due/README.md", text.replace("2", "two"), 1,
                   beside={"src/due/a.h": ""})
        self.passes(folders.modules_say_what_they_refuse, "src/due/README.md", text, beside={"src/due/a.h": ""})
        self.passes(folders.modules_say_what_they_refuse, "src/due/README.md",
                    "| in | out | refuses |\nExample: 2 h\n", beside={"src/due/a.h": ""})

    def test_long_function(self):
        self.finds(functions.not_too_long, "src/due/a.cpp", "int a;\n" + FUNCTION_70, 2, {})
        self.passes(functions.not_too_long, "src/due/a.cpp", FUNCTION_9, {})

    def test_long_function_in_the_ratchet(self):
        key = "src/due/a.cpp long_one"
        self.passes(functions.not_too_long, "src/due/a.cpp", FUNCTION_70, {key: 70})
        self.finds(functions.not_too_long, "src/due/a.cpp", FUNCTION_70, 1, {key: 69})
        self.finds(functions.not_too_long, "src/due/a.cpp", FUNCTION_70, 1, {key: 71})
        self.assertIn(("tests/contract/ratchets/long_functions.txt", 1),
                      found(functions.not_too_long, {key: 70}, files={"src/due/a.cpp": FUNCTION_9}))

    def test_nothing_left_for_later(self):
        self.finds(tests_written.nothing_left_for_later, "src/due/a.cpp", "\n// TO" "DO: more\n", 2)
        self.passes(tests_written.nothing_left_for_later, "src/due/a.cpp", "// todos los dias\n")

    def test_package_host(self):
        for host in ("registry." "npm" "js.org", "deb." "debian.org", "cdn.js" "delivr.net"):
            self.finds(hosts.no_package_hosts, "docs/a.md", f"from {host}\n", 1)
        self.passes(hosts.no_package_hosts, "docs/a.md", "npm ci, then apt-get install\n")

    def test_far_address(self):
        for place in ("www.pump-works.com", "api.weather.org:8080"):
            self.finds(hosts.no_far_addresses, "src/web/a.cpp", f'get("http://{place}/x");\n', 1)
        for place in ("127.0.0.1:5000", "[::1]:80", "agent:5000", "agent.example", "a.example.com", "www.w3.org"):
            self.passes(hosts.no_far_addresses, "src/web/a.cpp", f'get("http://{place}/x");\n')

    def test_lock_file_with_a_place(self):
        self.finds(hosts.locks_name_no_place, "app/package-lock.json", '{\n"resolved": "somewhere"}', 2)
        self.passes(hosts.locks_name_no_place, "app/package-lock.json", '{"integrity": "sha512-x"}')

    def test_npm_package_without_exact_version(self):
        lock = {"app/package-lock.json": "{}"}
        for version in ("^1.2.3", "~1.2.3", "*", "latest", "1.2"):
            self.finds(hosts.npm_packages_pinned, "app/package.json", '{"dependencies":\n{"a": "%s"}}' % version, 2,
                       beside=lock)
        self.passes(hosts.npm_packages_pinned, "app/package.json", '{"devDependencies": {"a": "1.2.3-rc.1"}}', beside=lock)
        self.finds(hosts.npm_packages_pinned, "app/package.json", '{"devDependencies": {"a": "1.2.3"}}', 1)

    def test_debian_package_without_version(self):
        self.finds(hosts.debian_packages_pinned, "tools/packages/build.txt", "# why\ncmake\n", 2)
        self.passes(hosts.debian_packages_pinned, "tools/packages/build.txt", "# why\ncmake=3.25.*\n")

    def test_test_name_that_is_no_sentence(self):
        for name in ("Works", "adds_up", "lowerCase"):
            self.finds(tests_written.named_as_sentences, "src/due/a_test.cpp", f"\nTEST(Due, {name}) {{}}\n", 2)
        for name in ("TwoTriggersGiveTheFirst", "Property_SumIsKept", "B10MatchesPublished_Nist"):
            self.passes(tests_written.named_as_sentences, "src/due/a_test.cpp", f"TEST(Due, {name}) {{}}\n")

    def test_sleeping_test(self):
        self.finds(tests_written.wait_for_something, "src/due/a_test.cpp", "std::this_thread::sleep_for(x);\n", 1)
        self.finds(tests_written.wait_for_something, "tests/browser/a.mjs", "\nawait page.waitForTimeout(5);\n", 2)
        self.passes(tests_written.wait_for_something, "src/due/a.cpp", "std::this_thread::sleep_for(x);\n")
        self.passes(tests_written.wait_for_something, "src/due/a_test.cpp", "// never sleep_for(x)\n")

    def test_code_without_a_test(self):
        beside = {"src/due/a_test.cpp": ""}
        self.finds(tests_written.beside_the_code, "src/due/a.cpp", "", 1, [])
        self.passes(tests_written.beside_the_code, "src/due/a.cpp", "", [], beside=beside)
        self.passes(tests_written.beside_the_code, "src/due/a.cpp", "", [],
                    beside={"src/due/a.h": "", "src/due/b_test.cpp": '#include "src/due/a.h"\n'})
        self.passes(tests_written.beside_the_code, "src/due/a.cpp", '#include "src/due/all.h"\n', [],
                    beside={"tests/shop/b_test.cpp": '#include "src/due/all.h"\n'})
        self.finds(tests_written.beside_the_code, "src/due/a.cpp", "", 1, [],
                   beside={"src/due/a.h": "", "src/life/b_test.cpp": '#include "src/due/a.h"\n'})
        self.passes(tests_written.beside_the_code, "src/due/a.cpp", "", ["src/due/a.cpp"])
        self.assertEqual([("tests/contract/ratchets/untested_files.txt", 1)],
                         found(tests_written.beside_the_code, ["src/due/a.cpp"],
                               files={"src/due/a.cpp": ""} | beside))

    def test_command_that_is_not_described(self):
        told = {"commands": [{"name": "life fit", "options": ["--json"]}], "settings": ["listen"]}
        self.assertEqual(2, len(found(documented.all_in_the_documents, told, files={"docs/a.md": "nothing"})))
        self.assertEqual(1, len(found(documented.all_in_the_documents, told,
                                      files={"docs/a.md": "`hourwright life fit --json-lines`; listen"})))
        self.passes(documented.all_in_the_documents, "docs/a.md", "`hourwright life fit [--json]`; `listen`", told)

    def test_operation_without_a_row_and_row_without_an_operation(self):
        contract = {"api/openapi.yaml": "paths:\n  /a/{b}:\n    get:\n      operationId: a\n    put:\n      operationId: b\n"}
        page = "docs/api/README.md"
        self.finds(documented.operations_on_their_page, page, "| `GET /a/{b}` | one |\n", 1, beside=contract)
        self.finds(documented.operations_on_their_page, page, "| [`GET /a/{b}`](#a) | |\n| `PUT /a/{b}` | two |\n", 1, beside=contract)
        both = "| [`GET /a/{b}`](#a) | one |\n| `PUT /a/{b}` | two |\n"
        self.passes(documented.operations_on_their_page, page, both, beside=contract)
        self.finds(documented.operations_on_their_page, page, both + "| `GET /gone` | three |\n", 3, beside=contract)

    def test_a_monitored_metric_that_is_none(self):
        metrics = {"src/web/metrics.cpp": 'print_head(out, "hourwright_tasks", "", "");\n'}
        page = "packaging/monitoring/alerts.yaml"
        self.passes(documented.monitored_metrics_are_there, page, "expr: hourwright_tasks > 0\n", beside=metrics)
        self.finds(documented.monitored_metrics_are_there, page, "\nexpr: hourwright_gone > 0\n", 2, beside=metrics)

    def test_a_requirement_of_security_without_its_test(self):
        page, tests = "docs/methods/security.md", {"src/a_test.cpp": "TEST_F(Door, IsShut) {}\n"}
        self.passes(security.named_tests_exist, page, "| 1.2 | shut | `Door.IsShut` |\n", beside=tests)
        self.finds(security.named_tests_exist, page, "\n| 1.2 | shut | `Door.IsOpen` |\n", 2, beside=tests)
        self.finds(security.requirements_have_tests, page, "| 1.2 | shut | |\n", 1)

    def test_a_table_of_roles_that_is_not_the_contracts(self):
        contract = {"api/openapi.yaml": "x-permissions:\n  look: { roles: [viewer, outside], says: see }\n"
                                        "  admit: { roles: [lead], says: \"let in, let out\" }\n"}
        heads = {"last.md": "| permission | outside | viewer | technician | lead | to |\n| --- | --- | --- | --- | --- | --- |\n",
                 "first.md": "| | outside service | viewer | technician | lead |\n| --- | --- | --- | --- | --- |\n"}
        rows = {"last.md": ("| look | yes | yes | | | see |\n", "| admit | | | | yes | let in, let out |\n"),
                "first.md": ("| **look**: see | yes | yes | | |\n", "| **admit**: let in, let out | | | | yes |\n")}

        def finds(page, text, line):
            self.finds(security.roles_are_the_contracts, page, text, line, page, beside=contract)

        for page, head in heads.items():
            look, admit = rows[page]
            self.passes(security.roles_are_the_contracts, page, head + look + admit, page, beside=contract)
            finds(page, head + look, 1)
            finds(page, head + look + admit + admit.replace("admit", "leave"), 5)
            finds(page, head + look.replace("yes | yes", "yes | ") + admit, 3)
            finds(page, head + look + admit.replace("| yes", "yes | yes"), 4)
            finds(page, head + look.replace("see", "look away") + admit, 3)
            finds(page, "nothing\n", 1)

    def test_ratchet_that_grew(self):
        self.assertEqual(["b.cpp"], ratchet.grown("# a\na.cpp\n", "# a\na.cpp\nb.cpp\n"))
        self.assertEqual(["a.cpp f"], ratchet.grown("# a\na.cpp f 70\n", "# a\na.cpp f 71\n"))
        self.assertEqual([], ratchet.grown("# a\na.cpp f 70\nb.cpp g 80\n", "# a\na.cpp f 65\n"))
        self.assertEqual([], ratchet.grown("# since 2026-11-25\na.cpp\n", "# since 2026-12-01\nb.cpp\n"))


class FunctionsAreMeasured(unittest.TestCase):
    def lengths(self, path, text):
        return {function.name: function.lines for function in functions.functions_of(path, text)}

    def test_members_tests_and_constructors(self):
        text = ("namespace a {\nclass B : public C<int()> {\n public:\n  B(int x)\n      : x_{x}, y_(x) {\n  }\n"
                "  int f() const { return 1; }\n};\nTEST(A, SaysSo) {\n  if (x) {\n  }\n}\n}\n")
        self.assertEqual({"B": 3, "f": 1, "A.SaysSo": 4}, self.lengths("a.cpp", text))

    def test_constructor_whose_list_ends_with_braces(self):
        self.assertEqual({"B": 4}, self.lengths("a.cpp", "B::B(int x)\n    : x_{x} {\n  go();\n}\n"))

    def test_braces_in_strings_comments_and_macros_do_not_count(self):
        text = "#define X(a) { \\\n  {\nvoid f() {\n  // {\n  g(\"{\", '{', R\"({)\");\n}\nint h() { return 1'000; }\n"
        self.assertEqual({"f": 4, "h": 1}, self.lengths("a.cpp", text))

    def test_tables_types_and_namespaces_are_no_functions(self):
        self.assertEqual({}, self.lengths("a.h", "enum class A { a, b };\nstruct B {\n  int c{0};\n};\nconst A d[] = {\n};\n"))

    def test_scripts_are_measured_within_each_other_but_not_groups_of_tests(self):
        text = ("describe('a', () => {\n  it('b', () => {\n    if (x) {\n    }\n  });\n});\n"
                "function f(a: { b: number }): void {\n}\nconst g = async (x: number) => {\n\n};\n")
        self.assertEqual([4, 2, 3], [function.lines for function in functions.functions_of("a.ts", text)])

    def test_only_the_script_of_a_page_is_measured(self):
        self.assertEqual({"f": 2}, self.lengths("a.svelte", "{#if (a)}it's{/if}\n<script>\nfunction f() {\n}\n</script>\n"))
