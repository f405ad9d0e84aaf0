// What two servers in a row could read differently is refused by this one, and what stands behind it is never taken for
// a request (RFC 9112, sections 2.2, 5 to 7 and 11.2).

#include <vector>

#include "tests/abuse/abused_shop.h"

namespace hw::abuse {
namespace {

using Smuggling = AbusedShop;

struct Form {
  std::string_view what;
  std::string_view bytes;
};

std::vector<Form> smuggling_forms() {
  using namespace std::string_view_literals;
  return {
      {"length and chunks",
       "POST / HTTP/1.1\r\nHost: 127.0.0.1\r\nContent-Length: 4\r\nTransfer-Encoding: chunked\r\n\r\n0\r\n\r\n"},
      {"chunks and length",
       "POST / HTTP/1.1\r\nHost: 127.0.0.1\r\nTransfer-Encoding: chunked\r\nContent-Length: 4\r\n\r\n0\r\n\r\n"},
      {"two lengths", "POST / HTTP/1.1\r\nHost: 127.0.0.1\r\nContent-Length: 0\r\nContent-Length: 40\r\n\r\n"},
      {"one length twice", "POST / HTTP/1.1\r\nHost: 127.0.0.1\r\nContent-Length: 0\r\nContent-Length: 0\r\n\r\n"},
      {"a list of lengths", "POST / HTTP/1.1\r\nHost: 127.0.0.1\r\nContent-Length: 0, 0\r\n\r\n"},
      {"a signed length", "POST / HTTP/1.1\r\nHost: 127.0.0.1\r\nContent-Length: +0\r\n\r\n"},
      {"a folded field", "GET / HTTP/1.1\r\nHost: 127.0.0.1\r\nX: y\r\n Transfer-Encoding: chunked\r\n\r\n"},
      {"bare line feeds", "GET / HTTP/1.1\nHost: 127.0.0.1\n\n"},
      {"a bare line feed in a field", "GET / HTTP/1.1\r\nHost: 127.0.0.1\r\nX: y\nContent-Length: 5\r\n\r\n"},
      {"a bare carriage return", "GET / HTTP/1.1\r\nHost: 127.0.0.1\r\nX: y\rContent-Length: 5\r\n\r\n"},
      {"a blank before the colon", "POST / HTTP/1.1\r\nHost: 127.0.0.1\r\nContent-Length : 5\r\n\r\n"},
      {"a coding that is none", "POST / HTTP/1.1\r\nHost: 127.0.0.1\r\nTransfer-Encoding: xchunked\r\n\r\n"},
      {"identity", "POST / HTTP/1.1\r\nHost: 127.0.0.1\r\nTransfer-Encoding: identity\r\n\r\n"},
      {"chunked twice", "POST / HTTP/1.1\r\nHost: 127.0.0.1\r\nTransfer-Encoding: chunked, chunked\r\n\r\n0\r\n\r\n"},
      {"a chunk that is too long",
       "POST / HTTP/1.1\r\nHost: 127.0.0.1\r\nTransfer-Encoding: chunked\r\n\r\n1\r\nab\r\n0\r\n\r\n"},
      {"a chunk's size with 0x",
       "POST / HTTP/1.1\r\nHost: 127.0.0.1\r\nTransfer-Encoding: chunked\r\n\r\n0x1\r\na\r\n0\r\n\r\n"},
      {"a chunk's size beyond 64 bits",
       "POST / HTTP/1.1\r\nHost: 127.0.0.1\r\nTransfer-Encoding: chunked\r\n\r\n10000000000000000\r\n"},
      {"a zero byte", "GET / HTTP/1.1\r\nHost: 127.0.0.1\r\nX: a\0b\r\n\r\n"sv},
      {"two hosts", "GET / HTTP/1.1\r\nHost: 127.0.0.1\r\nHost: other\r\n\r\n"},
      {"no host", "GET / HTTP/1.1\r\n\r\n"},
      {"another's address", "GET http://other.example/ HTTP/1.1\r\nHost: other.example\r\n\r\n"},
      {"a tunnel", "CONNECT other.example:80 HTTP/1.1\r\nHost: other.example\r\n\r\n"},
      {"a version to come", "GET / HTTP/2.0\r\nHost: 127.0.0.1\r\n\r\n"},
      {"chunks in HTTP/1.0", "POST / HTTP/1.0\r\nHost: 127.0.0.1\r\nTransfer-Encoding: chunked\r\n\r\n0\r\n\r\n"},
  };
}

TEST_F(Smuggling, EveryFormIsRefusedAndNothingBehindItIsHeard) {
  const std::string hidden = request("GET", "/healthz");
  for (const Form& form : smuggling_forms()) {
    RawLine line(port());
    line.send(std::string(form.bytes) + hidden);
    const std::string heard = line.answer();
    const int status = status_of(heard);
    EXPECT_TRUE(status >= 400 && status < 600) << form.what << ": " << heard;
    if (form.what != "another's address") {
      EXPECT_EQ(line.until_closed().find("alive"), std::string::npos) << form.what;
    }
  }
  expect_served();
}

// A chunk's extension, trailers and an address of this server are odd, but have one meaning.
TEST_F(Smuggling, WhatHasOneMeaningIsTaken) {
  RawLine line(port());
  line.send(request("POST", "/api/machines/m1/tasks/filter/done", "",
                    "Content-Type: application/json\r\nTransfer-Encoding: chunked\r\n") +
            "2;x=y\r\n{}\r\n0\r\nT: u\r\n\r\n" + request("GET", "/healthz"));
  EXPECT_EQ(status_of(line.answer()), 400);  // read, and no entry
  EXPECT_NE(line.answer().find("alive"), std::string::npos);
  EXPECT_EQ(ask(port(), "GET http://127.0.0.1/healthz HTTP/1.1\r\nHost: 127.0.0.1\r\n\r\n"), 200);
}

}  // namespace
}  // namespace hw::abuse
