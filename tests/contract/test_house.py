"""The rules, held against this repository. Each failure prints file:line and what would be right."""

import json
import os
import subprocess
import unittest

import ratchet
from rules import documented, folders, functions, hosts, includes, security, tests_written, words
from tree import ROOT, repository

PROGRAM = ROOT / "build" / "hourwright"
__unittest = True  # leaves this file's lines out of the printed failures: the violations name the place


class House(unittest.TestCase):
    def holds(self, violations) -> None:
        if violations:
            self.fail("\n" + "\n".join(map(str, sorted(set(violations), key=str))))

    def test_includes_are_named_from_the_root(self):
        self.holds(includes.from_the_root(repository()))

    def test_includes_go_only_to_folders_that_sort_before(self):
        self.holds(includes.flow_downwards(repository()))

    def test_libs_include_nothing_of_src(self):
        self.holds(includes.libs_know_no_shop(repository()))

    def test_libs_have_no_circles(self):
        self.holds(includes.libs_without_circles(repository()))

    def test_only_main_names_storage(self):
        self.holds(includes.storage_only_in_main(repository()))

    def test_wrapped_libraries_stay_in_libs(self):
        self.holds(includes.wrapped_libraries(repository()))

    def test_headers_are_read_once(self):
        self.holds(includes.once(repository()))

    def test_identifiers_say_something(self):
        self.holds(words.identifiers_say_something(repository()))

    def test_file_names_say_something(self):
        self.holds(words.files_say_something(repository()))

    def test_things_go_by_our_words(self):
        self.holds(words.the_right_word(repository()))

    def test_folders_are_explained(self):
        self.holds(folders.explained(repository()))

    def test_modules_say_what_they_refuse(self):
        self.holds(folders.modules_say_what_they_refuse(repository()))

    def test_functions_are_not_too_long(self):
        self.holds(functions.not_too_long(repository(), ratchet.read_with_lines("long_functions.txt")))

    def test_no_package_host_is_named(self):
        self.holds(hosts.no_package_hosts(repository()))

    def test_no_far_address_is_in_the_code(self):
        self.holds(hosts.no_far_addresses(repository()))

    def test_lock_files_name_no_place(self):
        self.holds(hosts.locks_name_no_place(repository()))

    def test_npm_packages_are_pinned(self):
        self.holds(hosts.npm_packages_pinned(repository()))

    def test_debian_packages_are_pinned(self):
        self.holds(hosts.debian_packages_pinned(repository()))

    def test_tests_are_named_as_sentences(self):
        self.holds(tests_written.named_as_sentences(repository()))

    def test_tests_do_not_sleep(self):
        self.holds(tests_written.wait_for_something(repository()))

    def test_code_has_its_test_beside_it(self):
        self.holds(tests_written.beside_the_code(repository(), ratchet.read("untested_files.txt")))

    def test_nothing_is_left_for_later(self):
        self.holds(tests_written.nothing_left_for_later(repository()))

    def test_ratchets_only_shrink(self):
        for path in sorted(ratchet.FOLDER.glob("*.txt")):
            before = ratchet.committed_before(path.name)
            new = ratchet.grown(before, path.read_text()) if before is not None else []
            self.assertEqual(new, [], f"{path.name} may only get shorter: mend these instead of listing them")

    def test_operations_are_on_their_page(self):
        self.assertGreater(len(documented.operations_of(repository().texts[documented.CONTRACT])), 40)
        self.holds(documented.operations_on_their_page(repository()))

    def test_monitored_metrics_are_there(self):
        self.holds(documented.monitored_metrics_are_there(repository()))

    def test_what_is_asked_of_security_is_shown_by_tests_that_exist(self):
        self.assertGreater(len(security.roles_of(repository().texts[security.CONTRACT])), 5)
        self.holds(security.named_tests_exist(repository()))
        self.holds(security.requirements_have_tests(repository()))

    def test_roles_in_the_documents_are_the_contracts(self):
        for page in security.PAGES_WITH_ROLES:
            self.holds(security.roles_are_the_contracts(repository(), page))

    def test_commands_and_settings_are_in_the_documents(self):
        if not PROGRAM.exists():
            if "HW_PROGRAM_REQUIRED" in os.environ:
                self.fail("build/hourwright is missing: it has to be built before it can say what it offers")
            self.skipTest("build/hourwright is not built; make test builds it")
        shown = subprocess.run([PROGRAM, "help", "--json"], capture_output=True, text=True, check=True, timeout=20)
        self.holds(documented.all_in_the_documents(repository(), json.loads(shown.stdout)))
