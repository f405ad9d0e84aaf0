#include "libs/sql/postgres_schema.h"

#include <gmock/gmock.h>

namespace hw::sql {
namespace {

using testing::HasSubstr;

TEST(PostgresSchema, TypesHoldTheSameAndTextIsComparedByItsBytes) {
  EXPECT_EQ(
      in_postgres("create table t(a text not null, n integer, x real, b blob, primary key(a)) strict, without rowid;"),
      "create table t(a text collate \"C\" not null, n bigint, x double precision, b bytea, primary key(a));");
}

TEST(PostgresSchema, ATriggerRefusesEachRowByTheSameWords) {
  const std::string said = in_postgres(
      "create trigger stays before update on entry begin select raise(abort, 'entries are only added'); end;\n"
      "create trigger on_and_on before update on head when new.ordinal <= old.ordinal\n"
      "begin select raise(abort, 'the text of an integer'); end;\n");
  EXPECT_THAT(said, HasSubstr("create trigger stays before update on entry for each row execute function "
                              "refuse_change('entries are only added');"));
  EXPECT_THAT(said, HasSubstr("create trigger on_and_on before update on head for each row when (new.ordinal <= "
                              "old.ordinal) execute function refuse_change('the text of an integer');"));
  EXPECT_THAT(said, HasSubstr("create or replace function refuse_change()"));
}

TEST(PostgresSchema, ATableInPartsHasThemAndTheOthersHaveNone) {
  const InParts in_parts{{"entry"}, "plant", 2};
  EXPECT_EQ(in_postgres("create table plant(plant text) strict;\ncreate table entry(plant text, n integer) strict;\n"
                        "create index entry_n on entry(plant, n);",
                        in_parts),
            "create table plant(plant text collate \"C\");\n"
            "create table entry(plant text collate \"C\", n bigint) partition by hash(plant);\n"
            "create table entry_0 partition of entry for values with (modulus 2, remainder 0);\n"
            "create table entry_1 partition of entry for values with (modulus 2, remainder 1);\n"
            "create index entry_n on entry(plant, n);");
  EXPECT_EQ(part_names("entry", in_parts), (std::vector<std::string>{"entry_0", "entry_1"}));
}

}  // namespace
}  // namespace hw::sql
