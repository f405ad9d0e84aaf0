#pragma once
// OpenSSL's objects with owners, and PEM in and out. Only this folder's .cpp files and tests include it.

#include <memory>
#include <string>
#include <string_view>

#include <openssl/bio.h>
#include <openssl/evp.h>
#include <openssl/pem.h>
#include <openssl/x509.h>
#include <openssl/x509v3.h>

#include "libs/values/assert.h"

namespace hw::certificates {

template <auto free_it>
struct FreeBy {
  template <class T>
  void operator()(T* object) const {
    free_it(object);
  }
};

using Key = std::unique_ptr<EVP_PKEY, FreeBy<EVP_PKEY_free>>;
using X509Certificate = std::unique_ptr<X509, FreeBy<X509_free>>;
using Bio = std::unique_ptr<BIO, FreeBy<BIO_free_all>>;

inline Bio reading(std::string_view text) { return Bio{BIO_new_mem_buf(text.data(), static_cast<int>(text.size()))}; }

// No key is asked for on the terminal where a file is encrypted.
inline int no_password(char*, int, int, void*) { return 0; }

// The first of its kind in the text; null where there is none that reads.
inline X509Certificate parse_certificate(std::string_view pem) {
  return X509Certificate{PEM_read_bio_X509(reading(pem).get(), nullptr, no_password, nullptr)};
}
inline Key parse_key(std::string_view pem) {
  return Key{PEM_read_bio_PrivateKey(reading(pem).get(), nullptr, no_password, nullptr)};
}

template <class Write>
std::string written(const Write& write) {
  const Bio out{BIO_new(BIO_s_mem())};
  HW_ASSERT(out != nullptr && write(out.get()) == 1, "OpenSSL writes into memory");
  char* bytes = nullptr;
  const long length = BIO_get_mem_data(out.get(), &bytes);
  return {bytes, static_cast<std::size_t>(length)};
}

inline std::string print_pem(X509* certificate) {
  return written([&](BIO* out) { return PEM_write_bio_X509(out, certificate); });
}
inline std::string print_pem(EVP_PKEY* key) {
  return written([&](BIO* out) { return PEM_write_bio_PrivateKey(out, key, nullptr, nullptr, 0, nullptr, nullptr); });
}

}  // namespace hw::certificates
