#include "src/record/verify.h"

#include <algorithm>

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace hw::record {
namespace {

using testing::HasSubstr;

// A logbook in memory, to be altered by hand.
struct Book {
  std::vector<SealedEntry> rows;
  Head head{0, first_previous_hash()};

  explicit Book(int count) {
    for (int n = 1; n <= count; ++n) append(fmt::format("text {}", n));
  }
  void append(const std::string& text) {
    rows.push_back({head.ordinal + 1, {{"says", text}, {"note", std::nullopt}}, head.hash, ""});
    seal_anew(rows.size() - 1);
    head = {rows.back().ordinal, rows.back().hash};
  }
  void seal_anew(std::size_t index) {
    SealedEntry& row = rows[index];
    row.hash = seal(row.previous_hash, canonical_bytes(row.ordinal, row.fields));
  }
  void in_order() {
    std::stable_sort(rows.begin(), rows.end(), [](const auto& a, const auto& b) { return a.ordinal < b.ordinal; });
  }
  Verdict verdict(const std::optional<std::string>& noted = {}) const {
    Verifier verifier;
    for (const SealedEntry& row : rows) verifier.take(row);
    return verifier.end(head, noted);
  }
  // One break a line.
  std::string breaks(const std::optional<std::string>& noted = {}) const {
    std::string text;
    for (const Break& one : verdict(noted).breaks) text += one.says + "\n";
    return text;
  }
};

TEST(Verify, WhatWasOnlyAddedIsUnbroken) {
  const Book book(5);
  EXPECT_EQ(book.breaks(), "");
  EXPECT_EQ(book.verdict().entries, 5);
  EXPECT_EQ(book.verdict().head, book.rows.back().hash);
  EXPECT_EQ(Book(0).breaks(), "");
}

TEST(Verify, AnAlteredRowIsTheOnlyOneNamed) {
  for (std::size_t index = 0; index < 5; ++index) {
    Book book(5);
    book.rows[index].fields[1].value = "added later";
    EXPECT_EQ(book.breaks(), fmt::format("entry {} was altered: it is not what was sealed (which field was altered "
                                         "cannot be known)\n",
                                         index + 1));
  }
}

TEST(Verify, AnAlteredHashOrLinkIsToldFromAnAlteredRow) {
  for (std::size_t index = 0; index < 5; ++index) {
    Book hash(5);
    hash.rows[index].hash[0] ^= 1;
    EXPECT_EQ(hash.breaks(),
              fmt::format("entry {} was altered: its hash was altered, the rest is as it was sealed\n", index + 1));
    Book link(5);
    link.rows[index].previous_hash[0] ^= 1;
    EXPECT_EQ(link.breaks(), fmt::format("entry {} was altered: its link to the entry before was altered, the rest is "
                                         "as it was sealed\n",
                                         index + 1));
  }
}

TEST(Verify, MissingRowsAreNamedByTheirPlaces) {
  Book book(9);
  book.rows.erase(book.rows.begin() + 3, book.rows.begin() + 6);
  book.rows.erase(book.rows.begin());
  EXPECT_EQ(book.breaks(), "entry 1 is missing\nentries 4 to 6 are missing\n");
}

TEST(Verify, RowsCutOffAtTheEndAreMissedByTheHead) {
  Book book(9);
  book.rows.resize(7);
  EXPECT_EQ(book.breaks(), "entries 8 to 9 are missing at the end: by the head entry 9 is the newest\n");
  book.rows.clear();
  EXPECT_EQ(book.breaks(), "entries 1 to 9 are missing at the end: by the head entry 9 is the newest\n");
}

TEST(Verify, RowsClosedUpOverAMissingOneAreInTheWrongPlace) {
  Book book(9);
  book.rows.erase(book.rows.begin() + 3);
  for (std::size_t index = 3; index < 8; ++index) --book.rows[index].ordinal;
  EXPECT_EQ(book.breaks(),
            "entries 4 to 8 are in the wrong place: written as entries 5 to 9\n"
            "entry 9 is missing at the end: by the head entry 9 is the newest\n");
}

TEST(Verify, SwappedRowsAreNamedWithThePlacesTheyWereWrittenFor) {
  Book book(9);
  std::swap(book.rows[3].ordinal, book.rows[6].ordinal);
  book.in_order();
  EXPECT_EQ(book.breaks(),
            "entry 4 is in the wrong place: written as entry 7\n"
            "entry 7 is in the wrong place: written as entry 4\n");
}

TEST(Verify, NeighboursAtTheEndThatWereSwappedAreNamedToo) {
  Book book(9);
  std::swap(book.rows[7].ordinal, book.rows[8].ordinal);
  book.in_order();
  EXPECT_EQ(book.breaks(),
            "entry 8 is in the wrong place: written as entry 9\n"
            "entry 9 is in the wrong place: written as entry 8\n");
}

TEST(Verify, FieldsSwappedBetweenTwoRowsAlterBoth) {
  Book book(9);
  std::swap(book.rows[3].fields, book.rows[6].fields);
  EXPECT_THAT(book.breaks(), testing::AllOf(HasSubstr("entry 4 was altered"), HasSubstr("entry 7 was altered")));
}

TEST(Verify, ARowPutInMovesThoseBehindIt) {
  Book book(9);
  for (std::size_t index = 4; index < 9; ++index) ++book.rows[index].ordinal;
  book.rows.insert(book.rows.begin() + 4, {5, {{"says", "forged"}, {"note", {}}}, book.rows[3].hash, ""});
  book.seal_anew(4);
  EXPECT_EQ(book.breaks(),
            "entries 6 to 10 are in the wrong place: written as entries 5 to 9\n"
            "entry 10 is behind the head: by the head entry 9 is the newest\n");
}

TEST(Verify, ARowPutInBeforeTheFirstOrTwiceHasNoPlace) {
  Book book(3);
  book.rows.insert(book.rows.begin(), {0, {{"says", "forged"}, {"note", {}}}, first_previous_hash(), ""});
  book.seal_anew(0);
  EXPECT_THAT(book.breaks(), HasSubstr("entry 0 was put in: there is no place for it"));
  Book twice(3);
  twice.rows.insert(twice.rows.begin() + 1, twice.rows[1]);
  EXPECT_THAT(twice.breaks(), HasSubstr("entry 2 was put in: there is no place for it"));
}

TEST(Verify, ARowAppendedPastTheHeadIsNamed) {
  Book book(3);
  const Head before = book.head;
  book.append("forged");
  book.head = before;
  EXPECT_EQ(book.breaks(), "entry 4 is behind the head: by the head entry 3 is the newest\n");
}

TEST(Verify, ARowSealedAnewBreaksTheLinkBehindIt) {
  Book book(5);
  book.rows[2].fields[0].value = "forged";
  book.seal_anew(2);
  EXPECT_EQ(book.breaks(),
            "entry 4 was not written behind entry 3 as that is now: that one was altered or put in and "
            "sealed anew\n");
}

TEST(Verify, ALastRowSealedAnewDoesNotFitTheHead) {
  Book book(5);
  book.rows[4].fields[0].value = "forged";
  book.seal_anew(4);
  EXPECT_THAT(book.breaks(), HasSubstr("the head's hash is not that of entry 5"));
}

TEST(Verify, AHeadThatWasAlteredDoesNotFit) {
  Book book(5);
  book.head.hash[0] ^= 1;
  EXPECT_THAT(book.breaks(), HasSubstr("the head's hash is not that of entry 5"));
  Verifier none;
  EXPECT_EQ(none.end(std::nullopt).breaks.at(0).kind, BreakKind::head);
}

// What the chain alone cannot show, a hash that was noted elsewhere does.
TEST(Verify, EverythingSealedAnewShowsOnlyByANotedHash) {
  Book book(5);
  const std::string noted = book.rows[3].hash;
  book.append("later");
  EXPECT_EQ(book.breaks(noted), "");
  Book anew(0);
  for (const auto& row : book.rows) anew.append(row.ordinal == 2 ? "forged" : *row.fields[0].value);
  EXPECT_EQ(anew.breaks(), "");
  EXPECT_THAT(anew.breaks(noted), HasSubstr("no entry has the noted hash " + noted));
}

TEST(Verify, SeveralBreaksAreEachNamed) {
  Book book(20);
  book.rows[17].hash[3] ^= 1;
  book.rows.erase(book.rows.begin() + 11);
  book.rows[4].fields[0].value = "forged";
  const auto breaks = book.verdict().breaks;
  ASSERT_EQ(breaks.size(), 3u);
  EXPECT_EQ(breaks[0].entry, 5);
  EXPECT_EQ(breaks[0].kind, BreakKind::altered);
  EXPECT_EQ(breaks[1].entry, 12);
  EXPECT_EQ(breaks[1].kind, BreakKind::missing);
  EXPECT_EQ(breaks[2].entry, 18);
}

}  // namespace
}  // namespace hw::record
