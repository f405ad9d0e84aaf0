// Sheets, lists and labels of the stores over the wire.

#include <gmock/gmock.h>

#include "libs/formats/pdf_reading_test.h"
#include "libs/formats/sheet.h"
#include "libs/http/loopback_test.h"
#include "src/web/stores_sheets.h"
#include "tests/shop/let_in.h"
#include "tests/shop/served.h"

namespace hw::shop {
namespace {

using testing::EndsWith;
using testing::HasSubstr;

constexpr std::string_view as_bytes = "Content-Type: application/octet-stream\r\n";
const std::string sheet_path = "/api/stores/sheet", look_path = sheet_path + "/look";
const std::string german_sheet =
    "Lagerliste\n\nTeilenummer;Bezeichnung;ME;Fach;Bestand;Lieferant;Bestellnr.;Preis\n"
    "F-1;Filterbeutel;Stk;R2/F3;4;Kranz;K 7;12,50\n"
    "O-7;\xD6l;Liter;;60,5;;;4,20\n";

std::string read_path(int id) { return sheet_path + "?by=Ada&id=" + id_of(id); }

TEST_F(Served, ASheetIsLookedAtAndThenTakenOverAsAWhole) {
  const auto looked = answer_of("POST", look_path, look_path, german_sheet, as_bytes);
  EXPECT_EQ(looked.at("form"), "CSV, Windows-1252, semicolons, decimal comma");
  EXPECT_EQ(looked.at("new"), 2);
  EXPECT_EQ(looked.at("counted"), 2);
  EXPECT_TRUE(answer_of("GET", "/api/stores", "/api/stores").at("parts").as_array().empty());
  const auto entry = answer_of("POST", sheet_path, read_path(1), german_sheet, as_bytes);
  EXPECT_EQ(entry.at("kind"), "sheet read");
  EXPECT_EQ(answer_of("POST", sheet_path, read_path(1), german_sheet, as_bytes), entry) << "sent twice";
  const auto part = answer_of("GET", "/api/stores/parts/{part}", "/api/stores/parts/O-7");
  EXPECT_EQ(part.at("part").at("title"), "Öl");
  EXPECT_EQ(part.at("on_hand"), 60.5);
  EXPECT_EQ(ask("POST", read_path(2), german_sheet, as_bytes).status, 400) << "it changes nothing any more";
}

TEST_F(Served, OfASheetWithAMistakeNothingIsTakenOver) {
  const std::string sheet = "Number,Title,Price,Colour\nA,One,1.5,red\nB,=Two,cheap,blue\n";
  const auto looked = answer_of("POST", look_path, look_path, sheet, as_bytes);
  EXPECT_EQ(looked.at("mistakes").at(0).at("row"), 3);
  EXPECT_EQ(looked.at("mistakes").at(0).at("mistakes").at(0).at("saying").at("code"), "sheet-no-number");
  expect_problem(ask("POST", read_path(1), sheet, as_bytes), 400, "rows with mistakes: 3; nothing was taken over");
  EXPECT_TRUE(ask("GET", "/api/stores").json().at("parts").as_array().empty());
  const Answer mistakes = ask("POST", sheet_path + "/mistakes.csv?language=de", sheet, as_bytes);
  EXPECT_THAT(mistakes.body, EndsWith("B;'=Two;cheap;blue;\"Price: „cheap“ ist keine Zahl; richtig ist zum Beispiel "
                                      "12,50.\"\r\n"));
  const auto without_price =
      answer_of("POST", sheet_path, read_path(2) + "&columns=number,title,,note", sheet, as_bytes);
  EXPECT_EQ(without_price.at("told").at("stores").at("parts"), 2);
}

TEST_F(Served, WhoMayReadInNoSheetIsToldSoBeforeItIsSent) {
  const auto told = [&](std::string_view path, std::string_view more) {
    http::RawClient client(server->port());
    client.send(fmt::format("POST {} HTTP/1.1\r\nHost: localhost\r\nContent-Length: {}\r\n{}\r\n", path,
                            web::sheet_bytes_max, more));
    return client.read_all();
  };
  const std::string viewer = let_in(scene.folder(), access::Role::viewer);
  const std::string bytes{as_bytes};
  EXPECT_THAT(told(sheet_path, bytes), testing::StartsWith("HTTP/1.1 401"));
  EXPECT_THAT(told(sheet_path + "?by=Ada", bytes + viewer), testing::StartsWith("HTTP/1.1 403"));
  EXPECT_THAT(told(sheet_path + "/mistakes.csv", bytes), testing::StartsWith("HTTP/1.1 401"));
  EXPECT_THAT(told(sheet_path, bytes + as_lead + "Origin: http://elsewhere\r\n"), testing::StartsWith("HTTP/1.1 403"));
  EXPECT_THAT(told(sheet_path, as_lead), testing::StartsWith("HTTP/1.1 415"));
  EXPECT_THAT(told(sheet_path + "s", bytes), testing::StartsWith("HTTP/1.1 404"));
  EXPECT_THAT(told(sheet_path, bytes + viewer), HasSubstr("Connection: close\r\n"));
}

TEST_F(Served, WhatIsNoSheetIsRefused) {
  expect_problem(ask("POST", look_path, "a;b", as_json), 415, "application/octet-stream");
  expect_problem(ask("POST", look_path, "%PDF-1.4", as_bytes), 400, "this is a PDF");
  expect_problem(ask("POST", look_path + "?columns=number,colour", "a;b\nc;d\n", as_bytes), 400, "columns: \"colour\"");
  expect_problem(ask("POST", sheet_path + "?by=Ada&id=1", german_sheet, as_bytes), 400, "id");
  expect_problem(ask("POST", sheet_path + "?id=" + id_of(1), german_sheet, as_bytes), 400, "by");
  std::string large = "Number;Title\n";
  large.resize(web::sheet_bytes_max, '\n');
  EXPECT_EQ(ask("POST", look_path, large, as_bytes).status, 400) << "no row of parts";
  EXPECT_EQ(ask("POST", look_path, large + "\n", as_bytes).status, 413);
  EXPECT_EQ(ask("POST", "/api/stores/movements", large, as_json).status, 413) << "other bodies stay small";
}

TEST_F(Served, WhatIsExportedIsReadInWithoutAChange) {
  ask("POST", read_path(1), german_sheet, as_bytes);
  for (const auto* format : {"csv", "csv?language=de", "xlsx", "xlsx?language=de"}) {
    const Answer exported = ask("GET", sheet_path + "." + format);
    EXPECT_EQ(exported.status, 200) << format;
    const auto looked = answer_of("POST", look_path, look_path, exported.body, as_bytes);
    EXPECT_EQ(looked.at("alike"), 2) << format;
    EXPECT_EQ(looked.at("rows"), 2) << format;
    EXPECT_EQ(looked.at("counted"), 0) << format;
  }
  EXPECT_EQ(ask("GET", sheet_path + ".ods").status, 404);
  EXPECT_EQ(ask("GET", sheet_path + ".csv?language=fr").status, 400);
}

TEST_F(Served, AnOrderIsAListForItsSupplier) {
  ask("POST", read_path(1), german_sheet, as_bytes);
  ask("POST", "/api/stores/orders",
      fmt::format(R"({{"id":"{}","by":"Bo","supplier":"Kranz","reference":"26-1","note":"Tor 3",)"
                  R"("lines":[{{"part":"F-1","quantity":2,"price":12.5}}]}})",
                  id_of(2)));
  const std::string list = "/api/stores/orders/list.", query = "?order=" + id_of(2);
  EXPECT_THAT(ask("GET", list + "csv" + query).body,
              EndsWith("Kranz,26-1,2026-03-02,K 7,F-1,Filterbeutel,2,piece,12.5,\r\n"));
  EXPECT_THAT(ask("GET", list + "txt" + query + "&language=de").body, HasSubstr("- 2 piece: K 7, Filterbeutel"));
  EXPECT_EQ(formats::read_sheet(ask("GET", list + "xlsx" + query).body)->rows.size(), 2u);
  const formats::PdfReading paper(ask("GET", list + "pdf" + query + "&paper=letter").body);
  for (const auto* part : {"Order", "Kranz", "25.00", "26-1", "Tor 3"}) EXPECT_THAT(paper.text(1), HasSubstr(part));
  expect_problem(ask("GET", list + "csv?order=" + id_of(9)), 404, "order");
  expect_problem(ask("GET", list + "csv?supplier=Nobody"), 404, "Nobody");
  EXPECT_EQ(ask("GET", list + "txt").body, "Nothing has to be ordered.\n");
}

TEST_F(Served, ShelfLabelsOpenThePagesOfTheirParts) {
  ask("POST", read_path(1), german_sheet, as_bytes);
  const std::string path = "/api/stores/labels.pdf?base=http://shop.example:8470";
  const formats::PdfReading all(ask("GET", path).body);
  EXPECT_THAT(all.codes(1, 300), testing::UnorderedElementsAre("http://shop.example:8470/stores/F-1",
                                                               "http://shop.example:8470/stores/O-7"));
  EXPECT_EQ(formats::PdfReading(ask("GET", path + "&parts=O-7&layout=single").body).codes(1, 300).size(), 1u);
  expect_problem(ask("GET", path + "&parts=X"), 404, "there is no part \"X\"");
  EXPECT_EQ(ask("GET", "/stores/F-1").body, index_html);
}

}  // namespace
}  // namespace hw::shop
