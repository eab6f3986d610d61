// The JSON tree: what is refused, and that what is kept is written back.
#include "files/json.h"

#include <gtest/gtest.h>

namespace kerfdraft::files {

TEST(JsonText, KeepsOrderOfKeysAndLettersOfNumbers) {
  const auto json =
      parseJson(R"({"b": 1.50, "a": [1e+5, -0.0, 18446744073709551616], "c": {"z": null, "y": true}})", "t");
  ASSERT_TRUE(json) << json.error().text();
  EXPECT_EQ(compactJson(*json), R"({"b":1.50,"a":[1e+5,-0.0,18446744073709551616],"c":{"z":null,"y":true}})");
}

TEST(JsonText, PrintsShortThingsOnOneLineAndReadsThemBack) {
  const auto json =
      parseJson(R"({"list":[1,2],"long":{"a":1,"b":2,"c":3,"d":4,"e":5,"f":6,"g":7},"empty":[]})", "t");
  ASSERT_TRUE(json);
  const std::string text = printJson(*json);
  EXPECT_EQ(
      text,
      "{\n  \"list\": [1, 2],\n  \"long\": {\n    \"a\": 1,\n    \"b\": 2,\n    \"c\": 3,\n    \"d\": 4,\n"
      "    \"e\": 5,\n    \"f\": 6,\n    \"g\": 7\n  },\n  \"empty\": []\n}\n");
  EXPECT_EQ(parseJson(text, "t").value(), *json);
}

TEST(JsonText, EscapesWhatMustBeAndKeepsUtf8) {
  Json json = Json::array();
  json.push(Json::ofText("a\"b\\c\n\t\x01 m³ ☃"));
  const std::string text = printJson(json);
  EXPECT_EQ(text, "[\n  \"a\\\"b\\\\c\\n\\t\\u0001 m³ ☃\"\n]\n");
  EXPECT_EQ(parseJson(text, "t").value(), json);
}

TEST(JsonText, SurrogatePairsAreOneCharacter) {
  const auto json = parseJson(R"(["\uD83D\uDE00"])", "t");
  ASSERT_TRUE(json);
  EXPECT_EQ(json->items[0].text, "😀");
  EXPECT_FALSE(parseJson(R"(["\uD83D"])", "t"));
}

struct Refused {
  const char* text;
  const char* says;
};

TEST(JsonText, RefusesWithLineAndColumn) {
  const Refused cases[] = {
      {"", "empty"},
      {"  \n ", "empty"},
      {"{\"a\": 1", "line 1, column 8: the text ends in the middle"},
      {"{\"a\": \"b", "the text ends in the middle"},
      {"{\n \"a\": 1,,\n}", "line 2, column 9"},
      {"{\"a\": NaN}", "line 1, column 7"},
      {"{\"a\": Infinity}", "not JSON"},
      {"{\"a\": -Infinity}", "not JSON"},
      {"{\"a\": 1e999}", "a number is too large"},
      {"{\"a\": 01}", "not JSON"},
      {"{\"a\": .5}", "not JSON"},
      {"{'a': 1}", "not JSON"},
      {"{\"a\": 1} x", "not JSON"},
      {"[1, 2,]", "not JSON"},
      {"// c\n{}", "not JSON"},
      {"{\"a\": \"\xff\"}", "not JSON"},
      {"{\"a\": \"\xc0\xaf\"}", "not JSON"},
      {"{\"a\": \"x\ny\"}", "not JSON"},
      {"\xff\xfe{\0}\0", "UTF-16"},
      {"\xfe\xff", "UTF-16"},
      {"{\"a\": {\"b\": 1, \"c\": 2, \"b\": 3}}", "the key \"b\" stands twice"},
  };
  for (const Refused& each : cases) {
    const auto json = parseJson(each.text, "shop.json");
    ASSERT_FALSE(json) << each.text;
    EXPECT_NE(json.error().text().find(each.says), std::string::npos) << each.text << "\n"
                                                                      << json.error().text();
    EXPECT_EQ(json.error().where.rfind("shop.json", 0), 0U);
    EXPECT_EQ(json.error().text().find('\xff'), std::string::npos) << "a sentence repeats broken bytes";
  }
}

TEST(JsonText, ByteOrderMarkIsPassedOverAndNulIsRefused) {
  EXPECT_TRUE(parseJson("\xEF\xBB\xBF{\"a\": 1}", "t"));
  EXPECT_FALSE(parseJson(std::string_view("{\"a\": 1}\0", 9), "t"));
}

TEST(JsonText, PlaceOfADuplicateIsAPointer) {
  const auto json = parseJson(R"({"a": [0, {"x/y": {"k": 1, "k": 2}}]})", "t");
  ASSERT_FALSE(json);
  EXPECT_EQ(json.error().where, "t: /a/1/x~1y/k");
}

TEST(JsonText, BoundsAreKept) {
  JsonLimits limits;
  limits.depth = 3;
  EXPECT_TRUE(parseJson("[[[1]]]", "t", limits));
  const auto deep = parseJson("[[[[1]]]]", "t", limits);
  ASSERT_FALSE(deep);
  EXPECT_NE(deep.error().message.find("nested over 3 deep"), std::string::npos);

  limits.values = 4;
  EXPECT_TRUE(parseJson("[1,2,3]", "t", limits));
  EXPECT_FALSE(parseJson("[1,2,3,4]", "t", limits));

  limits.bytes = 5;
  EXPECT_FALSE(parseJson("[1,2,3]", "t", limits));
  // A hostile text costs neither stack nor time.
  EXPECT_FALSE(parseJson(std::string(10'000'000, '['), "t"));
}

TEST(JsonText, QuotesInSentencesAreShortAndClean) {
  EXPECT_EQ(asQuoted("a\nb"), "\"a b\"");
  EXPECT_EQ(asQuoted(std::string(50, 'x')), '"' + std::string(40, 'x') + "…\"");
  std::string umlauts;
  for (int i = 0; i < 50; ++i) {
    umlauts += "ä";
  }
  EXPECT_EQ(asQuoted(umlauts), '"' + umlauts.substr(0, 80) + "…\"");
}

}  // namespace kerfdraft::files
