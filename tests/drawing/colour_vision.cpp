// Matrices for linear sRGB at full severity: G. M. Machado, M. M. Oliveira, L. A. F. Fernandes, "A
// physiologically-based model for simulation of color vision deficiency", IEEE Trans. Visualization and
// Computer Graphics 15 (2009) 1291-1298, table of matrices, from memory. Each row must sum to one, for white
// stays white; ColourVision.WhiteStaysWhite holds them to it. L*a*b*: CIE 15 (2004), from memory.
#include "drawing/colour_vision.h"

#include <algorithm>
#include <cmath>

namespace kerfdraft::drawing {
namespace {

using Three = std::array<double, 3>;
using Matrix = std::array<Three, 3>;

constexpr Matrix kNone{{{1, 0, 0}, {0, 1, 0}, {0, 0, 1}}};
constexpr Matrix kProtan{
    {{0.152286, 1.052583, -0.204868}, {0.114503, 0.786281, 0.099216}, {-0.003882, -0.048116, 1.051998}}};
constexpr Matrix kDeutan{
    {{0.367322, 0.860646, -0.227968}, {0.280085, 0.672501, 0.047413}, {-0.011820, 0.042940, 0.968881}}};
constexpr Matrix kTritan{
    {{1.255528, -0.076749, -0.178779}, {-0.078411, 0.930809, 0.147602}, {0.004733, 0.691367, 0.303900}}};

double linear(std::uint8_t value) {
  const double v = value / 255.0;
  return v <= 0.04045 ? v / 12.92 : std::pow((v + 0.055) / 1.055, 2.4);
}

Three linearOf(Colour colour) {
  return {linear(colour.red), linear(colour.green), linear(colour.blue)};
}

Three product(const Matrix& matrix, const Three& v) {
  Three out{};
  for (std::size_t row = 0; row < 3; ++row) {
    out[row] = matrix[row][0] * v[0] + matrix[row][1] * v[1] + matrix[row][2] * v[2];
  }
  return out;
}

const Matrix& matrixOf(Eye eye) {
  return eye == Eye::Protanope     ? kProtan
         : eye == Eye::Deuteranope ? kDeutan
         : eye == Eye::Tritanope   ? kTritan
                                   : kNone;
}

double luminance(Colour colour) {
  const Three v = linearOf(colour);
  return 0.2126729 * v[0] + 0.7151522 * v[1] + 0.0721750 * v[2];
}

}  // namespace

std::string_view toText(Eye eye) {
  return eye == Eye::Protanope     ? "protanope"
         : eye == Eye::Deuteranope ? "deuteranope"
         : eye == Eye::Tritanope   ? "tritanope"
                                   : "usual";
}

std::array<double, 3> labOf(Colour colour, Eye eye) {
  Three v = product(matrixOf(eye), linearOf(colour));
  for (double& part : v) {
    part = std::clamp(part, 0.0, 1.0);
  }
  constexpr Matrix kToXyz{{{0.4124564, 0.3575761, 0.1804375},
                           {0.2126729, 0.7151522, 0.0721750},
                           {0.0193339, 0.1191920, 0.9503041}}};
  constexpr Three kWhitePoint{0.95047, 1, 1.08883};
  const Three xyz = product(kToXyz, v);
  Three f{};
  for (std::size_t k = 0; k < 3; ++k) {
    const double t = xyz[k] / kWhitePoint[k];
    f[k] = t > 216.0 / 24389 ? std::cbrt(t) : (24389.0 / 27 * t + 16) / 116;
  }
  return {116 * f[1] - 16, 500 * (f[0] - f[1]), 200 * (f[1] - f[2])};
}

double apart(Colour a, Colour b, Eye eye) {
  const std::array<double, 3> x = labOf(a, eye);
  const std::array<double, 3> y = labOf(b, eye);
  return std::hypot(x[0] - y[0], x[1] - y[1], x[2] - y[2]);
}

double contrast(Colour a, Colour b) {
  const double x = luminance(a) + 0.05;
  const double y = luminance(b) + 0.05;
  return std::max(x, y) / std::min(x, y);
}

}  // namespace kerfdraft::drawing
