// Exact rational numbers: the only number type that decides anything about a card.
// No lengths, units or text forms of lengths here (see length.h).
#pragma once

#include <boost/multiprecision/gmp.hpp>
#include <string>

namespace evenmat {

// Expression templates are off so that the type behaves as a plain value in std:: and Eigen containers.
using Integer = boost::multiprecision::number<boost::multiprecision::gmp_int, boost::multiprecision::et_off>;
using Rational =
    boost::multiprecision::number<boost::multiprecision::gmp_rational, boost::multiprecision::et_off>;

// The largest whole number not above `value`.
Integer floor(const Rational& value);

// The largest multiple of `step` not above `value`, and the smallest not below it. Needs step > 0.
Rational round_down(const Rational& value, const Rational& step);
Rational round_up(const Rational& value, const Rational& step);

bool is_multiple(const Rational& value, const Rational& step);

// Lowest terms, as JSON answers quote lengths: "33/8", "4", "-1/2".
std::string fraction_text(const Rational& value);

}  // namespace evenmat
