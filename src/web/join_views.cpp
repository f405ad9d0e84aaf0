#include "src/web/join_views.h"

namespace hw::web {

QrView view_of(const formats::QrCode& code) {
  QrView view{code.side_modules(), ""};
  for (const auto& run : code.dark_runs()) {
    view.path += fmt::format("M{} {}h{}v1h-{}z", run.column, run.row, run.modules, run.modules);
  }
  return view;
}

formats::OrNull<AuthorityView> authority_view(const Reach& reach) {
  const auto served = reach.served();
  if (!served || !served->authority) return {};
  const auto& authority = *served->authority;
  return {AuthorityView{authority.title, authority.ends_at, authority.fingerprint}};
}

Result<JoinCodeView> join_code_view(const access::JoinCode& code, const Reach& reach) {
  JoinCodeView view{code.code, code.valid_until, fmt::format("{}/join?code={}", reach.first_address(), code.code), {}};
  HW_TAKE(qr, formats::encode_qr(view.address, formats::QrLevel::medium));
  view.qr = view_of(qr);
  return view;
}

}  // namespace hw::web
