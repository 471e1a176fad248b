// What a program outside sees of the matcher: hashes, and errors that name what is wrong.
#include <cstdio>

#include "matcher/base/error.h"
#include "matcher/base/sha256.h"
#include "matcher/catalogue/catalogue.h"

int main() {
  const char abc[] = {'a', 'b', 'c'};
  std::printf("%s\n", evet::sha256_hex(std::as_bytes(std::span(abc))).c_str());
  try {
    evet::Catalogue::open("no-such-folder", evet::system_env());
  } catch (const evet::Error& error) {
    std::printf("%s\n", evet::name(error.kind()));
  }
}
