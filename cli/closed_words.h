// The card closed, in sentences: how thick it is and what makes it so, what it weighs, what could not be
// counted, where it goes in. For reports; JSON has the numbers.
#pragma once

#include <string>
#include <vector>

#include "model/card.h"
#include "solver/body/closed_card.h"
#include "solver/body/mail.h"

namespace evenmat {

// "0.111 in at its thickest", "at least ..." where some papers' thickness is not stated; empty while none is
// known.
std::string thickness_words(const ClosedCard& closed, Unit unit);

// What lies over each other there, from the back to the front; empty for fewer than two things.
std::string thick_parts_words(const ClosedCard& closed, Unit unit);

// "6.5 g (0.23 oz)", likewise.
std::string weight_words(const ClosedCard& closed, Unit unit);

// Which papers lack a thickness or a weight, where any of the others has one; else empty.
std::string not_counted_words(const ClosedCard& closed);

// A paragraph for each envelope and post that was asked for; or briefly, where they take the card.
std::vector<std::string> asked_mail(const std::vector<MailNote>& mail);
std::vector<std::string> asked_mail_briefly(const std::vector<MailNote>& mail);

// The envelopes that take the card where none was asked for; empty where one was, or none is known.
std::string offered_envelopes(const std::vector<MailNote>& mail);

}  // namespace evenmat
