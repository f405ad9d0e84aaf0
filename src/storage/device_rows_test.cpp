// Devices that have joined, on disk.

#include "libs/sql/sqlite.h"
#include "src/storage/schema.h"
#include "src/storage/store_test.h"

namespace hw::storage {
namespace {

class DeviceRows : public StoreTest {
 protected:
  static service::Device full_device(std::string id) {
    service::Device device;
    device.secret_hash = "hash of " + id;
    device.id = std::move(id);
    device.title = "Telefon an der Säge";
    device.enrolled_by = "Ada";
    device.enrolled_at = at("2026-03-02T07:00:00.001Z");
    device.is_over_tls = true;
    device.last_seen_on = LocalDate::of(2026, 3, 2);
    return device;
  }
  template <class Change>
  Result<void> write(const Change& change) {
    HW_TAKE(writing, store->begin());
    HW_TRY(change(*writing));
    return writing->commit();
  }
  Result<void> add(const service::Device& device) {
    return write([&](service::Writing& writing) { return writing.add_device(device); });
  }
  Result<void> end(const std::string& device, const std::string& id) {
    const service::DeviceEnd ended{id, device, "Zoe", at("2026-03-04T07:00:00.001Z")};
    return write([&](service::Writing& writing) { return writing.end_device(ended); });
  }
};

TEST_F(DeviceRows, ComeBackAsTheyWereInTheOrderOfJoining) {
  ASSERT_TRUE(add(full_device("b")));
  ASSERT_TRUE(add(full_device("a")));
  ASSERT_TRUE(end("b", "e1"));
  ASSERT_TRUE(write([](service::Writing& writing) { return writing.see_device("a", LocalDate::of(2026, 3, 9)); }));
  open();
  const auto devices = *store->devices();
  ASSERT_EQ(devices.size(), 2U);
  const auto& b = devices[0];
  const auto whole = full_device("b");
  EXPECT_EQ(b.id, whole.id);
  EXPECT_EQ(b.title, whole.title);
  EXPECT_EQ(b.secret_hash, whole.secret_hash);
  EXPECT_EQ(b.enrolled_by, whole.enrolled_by);
  EXPECT_EQ(b.enrolled_at, whole.enrolled_at);
  EXPECT_TRUE(b.is_over_tls);
  EXPECT_EQ(b.last_seen_on, whole.last_seen_on);
  EXPECT_EQ(b.ended_at, at("2026-03-04T07:00:00.001Z"));
  EXPECT_EQ(b.ended_by, "Zoe");
  EXPECT_EQ(devices[1].last_seen_on, LocalDate::of(2026, 3, 9));
  EXPECT_FALSE(devices[1].ended_at);
}

TEST_F(DeviceRows, AreAddedOnceAndEndedOnce) {
  ASSERT_TRUE(add(full_device("a")));
  EXPECT_EQ(add(full_device("a")).error().code, ErrorCode::conflict);
  ASSERT_TRUE(end("a", "e1"));
  EXPECT_EQ(end("a", "e2").error().code, ErrorCode::conflict);
  EXPECT_EQ(end("none", "e3").error().code, ErrorCode::conflict);
}

TEST_F(DeviceRows, AreOnlyAdded) {
  ASSERT_TRUE(add(full_device("a")));
  ASSERT_TRUE(end("a", "e1"));
  store.reset();
  const auto db = std::move(*open_database(*place_of(folder.path()), sql::Access::write));
  for (const char* change : {"update device set secret_hash = 'x'", "delete from device",
                             "update device_end set device = 'x'", "delete from device_end"}) {
    const auto changed = db->execute(change);
    ASSERT_FALSE(changed) << change;
    EXPECT_NE(changed.error().message.find("only added"), std::string::npos) << changed.error().message;
  }
}

}  // namespace
}  // namespace hw::storage
