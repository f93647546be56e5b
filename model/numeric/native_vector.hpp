#pragma once
#include <immintrin.h>

/// The vector registers of x86-64 as the lanes use them. Each can be used only in a source file
/// that is compiled for a processor that has them. `Origin` as in lanes.hpp.
///
/// The processor's minimum of (a, b) is a < b ? a : b to the bit, its maximum of (b, a) is
/// a < b ? b : a; written as a choice, GCC makes two instructions where an operand is constant.
namespace gley::model {

template <class Origin>
struct Sse2Vector {
  using Native = __m128d;
  static constexpr int width = 2;
  static Native least(Native a, Native b) { return _mm_min_pd(a, b); }
  static Native greatest(Native a, Native b) { return _mm_max_pd(b, a); }
  static bool any(Native mask) { return _mm_movemask_pd(mask) != 0; }
};

template <class Origin>
struct Avx2Vector {
  using Native = __m256d;
  static constexpr int width = 4;
  static Native least(Native a, Native b) { return _mm256_min_pd(a, b); }
  static Native greatest(Native a, Native b) { return _mm256_max_pd(b, a); }
  static bool any(Native mask) { return _mm256_movemask_pd(mask) != 0; }
};

template <class Origin>
struct Avx512Vector {
  using Native = __m512d;
  static constexpr int width = 8;
  static constexpr __mmask8 all = 0xff;  // GCC 12 warns in its own header of the form without
  static Native least(Native a, Native b) { return _mm512_maskz_min_pd(all, a, b); }
  static Native greatest(Native a, Native b) { return _mm512_maskz_max_pd(all, b, a); }
  static bool any(Native mask) { return _mm512_movepi64_mask(_mm512_castpd_si512(mask)) != 0; }
};

}  // namespace gley::model
