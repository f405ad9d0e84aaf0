#include "src/storage/photo_rows.h"

#include "src/storage/store_test.h"

namespace hw::storage {
namespace {

class PhotoRows : public StoreTest {
 protected:
  Result<void> keep_photo() {
    HW_TAKE(writing, store->begin());
    HW_TRY(writing->add_photo(photo));
    return writing->commit();
  }
  service::Photo photo{"p1", std::string(64, 'a'), std::string("\xFF\xD8\0\x01", 4)};
};

TEST_F(PhotoRows, EveryByteComesBackAfterTheFolderIsOpenedAgain) {
  for (int byte = 0; byte < 256; ++byte) photo.bytes += static_cast<char>(byte);
  ASSERT_TRUE(keep_photo());
  open();
  const auto read = *store->photo("p1");
  ASSERT_TRUE(read);
  EXPECT_EQ(read->bytes, photo.bytes);
  EXPECT_EQ(read->sha256, photo.sha256);
  EXPECT_FALSE(*store->photo("p2"));
}

TEST_F(PhotoRows, AnIdIsKeptOnce) {
  ASSERT_TRUE(keep_photo());
  EXPECT_EQ(keep_photo().error().code, ErrorCode::conflict);
}

TEST_F(PhotoRows, WhatIsNotCommittedIsNotThere) {
  {
    auto writing = *store->begin();
    ASSERT_TRUE(writing->add_photo(photo));
  }
  EXPECT_FALSE(*store->photo("p1"));
}

}  // namespace
}  // namespace hw::storage
