#include "hailwright/core/digest.hpp"

#include <string>

#include "hailwright/core/contract.hpp"
#include "support/catch.hpp"

using namespace hailwright;

TEST_CASE("digest: the worked examples of FIPS 180-4") {
  // NIST, "Secure Hash Standard: SHA-256 examples" (csrc.nist.gov), and the empty message.
  CHECK(sha256_hex("abc") == "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  CHECK(sha256_hex("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq") ==
        "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1");
  CHECK(sha256_hex("") == "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
}

TEST_CASE("digest: bytes in pieces come to the same as at once") {
  // FIPS 180-4 test of a million letters a (NIST, ibidem).
  Sha256 million;
  for (int i = 0; i < 1000; ++i)
    million.add(std::string(1000, 'a'));
  CHECK(million.hex() == "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0");
  const std::string text = "abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq";
  for (std::size_t cut = 0; cut <= text.size(); ++cut) {
    Sha256 sum;
    sum.add(text.substr(0, cut));
    sum.add(text.substr(cut));
    CHECK(sum.hex() == sha256_hex(text));
  }
}

TEST_CASE("digest: it is ended once") {
  Sha256 sum;
  sum.hex();
  CHECK_THROWS_AS(sum.hex(), BugError);
  CHECK_THROWS_AS(sum.add("x"), BugError);
}

// RFC 4648, section 10 (from memory; also what `base64` of the GNU core utilities prints).
TEST_CASE("base64 gives the published texts") {
  CHECK(base64("").empty());
  CHECK(base64("f") == "Zg==");
  CHECK(base64("fo") == "Zm8=");
  CHECK(base64("foo") == "Zm9v");
  CHECK(base64("foob") == "Zm9vYg==");
  CHECK(base64("fooba") == "Zm9vYmE=");
  CHECK(base64("foobar") == "Zm9vYmFy");
  CHECK(base64(std::string("\0\xff\x10", 3)) == "AP8Q");
  // No break after 64 characters, as some writers of base64 make.
  CHECK(base64(std::string(300, 'a')).find('\n') == std::string::npos);
}
