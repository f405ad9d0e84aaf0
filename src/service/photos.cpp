#include "libs/values/sha256.h"
#include "src/service/entry_making.h"
#include "src/service/photo_type.h"
#include "src/service/use_cases.h"

namespace hw::service {
namespace {

// The photo that is to be kept, with what its bytes say; refuses what is none.
Result<Photo> checked(const PhotoEdit& edit) {
  HW_TRY(check_id("photo", edit.id));
  if (edit.bytes.size() > photo_bytes_max) {
    return refuse(ErrorCode::too_large, Saying{"photo-large"}, "a photo has at most {} bytes, not {}", photo_bytes_max,
                  edit.bytes.size());
  }
  const auto type = photo_type_of(edit.bytes);
  if (!type) {
    return refuse(ErrorCode::bad_input, Saying{"photo-kind"},
                  "the body begins like no photo that is kept; right is a JPEG, PNG or WebP");
  }
  if (*type != edit.content_type) {
    return refuse(ErrorCode::bad_input, "Content-Type: it says {}, but the body is {}", edit.content_type.substr(0, 60),
                  *type);
  }
  return Photo{edit.id, print_hex(sha256(edit.bytes)), edit.bytes};
}

PhotoView view_of(const Photo& photo) {
  return {photo.id, photo.sha256, static_cast<std::int64_t>(photo.bytes.size())};
}

}  // namespace

Result<PhotoView> keep_photo(OpenShop& shop, const PhotoEdit& edit) {
  HW_TAKE(photo, checked(edit));
  const auto turn = shop.edit();
  HW_TAKE(before, shop.store().photo(photo.id));
  if (before && before->sha256 == photo.sha256) return view_of(*before);
  if (before)
    return refuse(ErrorCode::conflict, id_used, "{} is the id of another photo; an id is used once", photo.id);
  HW_TAKE(writing, shop.store().begin());
  HW_TRY(writing->add_photo(photo));
  HW_TRY(writing->commit());
  return view_of(photo);
}

Result<Photo> find_photo(const OpenShop& shop, std::string_view id) {
  HW_TAKE(photo, shop.store().photo(id));
  if (!photo) return refuse(ErrorCode::not_found, "there is no photo {}", id.substr(0, 40));
  return *std::move(photo);
}

}  // namespace hw::service
