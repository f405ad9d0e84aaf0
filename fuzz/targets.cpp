#include "fuzz/targets.h"

#include <array>

namespace hw::fuzz {

std::span<const Target> targets() {
  static constexpr std::array all = {
      Target{"addresses", addresses},
      Target{"copy_file", copy_file},
      Target{"csv", csv},
      Target{"devices", devices},
      Target{"follower", follower},
      Target{"json_edits", json_edits},
      Target{"kept_count", kept_count},
      Target{"label_order", label_order},
      Target{"messages", messages},
      Target{"multipart", multipart},
      Target{"outbox", outbox},
      Target{"packed", packed},
      Target{"recording", recording},
      Target{"requests", requests},
      Target{"responses", responses},
      Target{"routes", routes},
      Target{"sheet", sheet},
      Target{"shdr", shdr},
      Target{"shop_files", shop_files},
      Target{"streams", streams},
      Target{"workbook_parts", workbook_parts},
  };
  return all;
}

}  // namespace hw::fuzz
