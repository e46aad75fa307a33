import { rowsOf } from './notation.ts';

// Columns: what it shows | ball last played rightly | strokes since, player>ball | outcome | balls that may be played next | ground |
// source | more. Sources: C common practice as taught. F "Simplified rules", hameastcroquet. R WCF official rulings on the 2013 rules,
// worldcroquet.org. D golf croquet outline, epsom-remuera.

/** Singles: a player is named by either ball of the side. */
export const SINGLES_2013 = rowsOf(`
the ball due | blue | red>red | stands | black | right | D
the ball due, the player named by the other ball | blue | yellow>red | stands | black | right | D
the first four turns | – | blue>blue red>red black>black yellow>yellow | stands | blue | right | D
nothing played yet | brown | – | stands | white | right | D
black for blue | yellow | blue>black | replaceAndReplay | blue | partnerBall | C, F | undone=1
black for blue, the player named by black | yellow | black>black | replaceAndReplay | blue | partnerBall | C, F
yellow for red | blue | red>yellow | replaceAndReplay | red | partnerBall | C, F | opening=no
brown for green | white | green>brown | replaceAndReplay | green | partnerBall | C, F
out of turn with its own ball | yellow | red>red | replaceAndReplay | blue | outOfTurn | F: strikes out of turn | undone=1
the same side again | red | yellow>yellow | replaceAndReplay | black | outOfTurn | F | opening=no
the same ball again | red | red>red | replaceAndReplay | black | outOfTurn | F | opening=no
an opponent's ball, the one due after | yellow | blue>red | opponentsChoose | red yellow | opponentsBall | C, F | undone=1 options=leave,putBack
an opponent's ball, the one played last | yellow | blue>yellow | opponentsChoose | red yellow | opponentsBall | C, F
brown for pink | green | pink>brown | opponentsChoose | green brown | opponentsBall | C, F | opening=no
green for pink | green | pink>green | opponentsChoose | green brown | opponentsBall | C, F | opening=no
the ball due struck by the other side | yellow | red>blue | opponentsChoose | blue black | opponentsBall | C, F
out of turn with an opponents' ball | yellow | red>black | opponentsChoose | blue black | opponentsBall | C, F
the partner ball, then the opponents by its order | yellow | blue>black yellow>yellow | stands | blue | opponentsPlayedOn | C
the partner ball, then the opponents by the old order | yellow | blue>black red>red | stands | black | opponentsPlayedOn | C: order of the ball last played
out of turn, then the other side by the new order | yellow | red>red black>black | stands | yellow | opponentsPlayedOn | C
out of turn, then the other side by the old order | yellow | red>red blue>blue | stands | red | opponentsPlayedOn | C
an opponent's ball, then its owners play it | yellow | blue>red red>red | stands | black | opponentsPlayedOn | C
an opponent's ball, then its owners play the other | yellow | blue>red yellow>yellow | stands | blue | opponentsPlayedOn | C
the partner ball, and the side plays on | yellow | blue>black blue>blue | opponentsChoose | red yellow | sidePlayedOn | C | undone=2
out of turn, and the side plays on | red | yellow>yellow red>red | opponentsChoose | blue black | sidePlayedOn | C | opening=no undone=2
an opponent's ball, and the side plays on | yellow | blue>red blue>blue | opponentsChoose | red yellow | sidePlayedOn | C | undone=2
the opponents answer with the offender's ball | yellow | blue>black red>blue | opponentsChoose | blue black | opponentsBall | C | undone=1
an error that stands, then a new one | yellow | blue>black yellow>yellow black>black | replaceAndReplay | blue | partnerBall | C | undone=1
the first stroke with the wrong ball | – | blue>black | replaceAndReplay | blue | opening | C | undone=1
the other side begins | – | red>red | replaceAndReplay | blue | opening | C
an opponent's ball among the first four: no penalty | – | blue>red | replaceAndReplay | blue | opening | C, R 5.2
a wrong first ball that was followed correctly | – | blue>black yellow>yellow | replaceAndReplay | blue | opening | C: both are brought back | undone=2
the third turn wrong | – | blue>blue red>red blue>blue | replaceAndReplay | black | opening | C | undone=1
the fourth ball wrong | – | blue>blue red>red black>black red>red | replaceAndReplay | yellow | opening | R 5.2 | undone=1
the second turn wrong, blue given as last right | blue | red>yellow | replaceAndReplay | red | opening | C | opening=yes
the third turn wrong, red given as last right | pink | green>green | replaceAndReplay | brown | opening | C | opening=yes
all four balls by the other sides | – | red>blue blue>red red>black blue>yellow | stands | blue | openingExchanged | R 5.1
three balls by the other sides | – | red>blue blue>red red>black | replaceAndReplay | blue | opening | C | undone=3
noticed in the fifth turn | – | blue>black red>red blue>blue yellow>yellow black>black | replaceAndReplay | blue | partnerBall | R 5.2: rule 11 from the fifth turn | undone=1
the opening is over with yellow | yellow | blue>black | replaceAndReplay | blue | partnerBall | R 5.2 | opening=yes
`);

/** Doubles: a player is named by the ball that is theirs. */
export const DOUBLES_2013 = rowsOf(`
the ball due by its owner | yellow | blue>blue | stands | red | right | D
the first four turns | – | green>green pink>pink brown>brown white>white | stands | green | right | D
the ball due by its owner's partner | yellow | black>blue | replaceAndReplay | blue | partnersSwapped | C | undone=1
red struck by the player of yellow | blue | yellow>red | replaceAndReplay | red | partnersSwapped | C | opening=no
the partner plays its own ball | yellow | black>black | replaceAndReplay | blue | partnerBall | C, F
the striker plays the partner's ball | yellow | blue>black | replaceAndReplay | blue | partnerBall | C, F
white for pink | green | pink>white | replaceAndReplay | pink | partnerBall | C, F | opening=no
out of turn with its own ball | yellow | red>red | replaceAndReplay | blue | outOfTurn | F
out of turn with the partner's ball | yellow | red>yellow | replaceAndReplay | blue | outOfTurn | F
the same ball again | white | white>white | replaceAndReplay | green | outOfTurn | F
the striker plays an opponent's ball | yellow | blue>red | opponentsChoose | red yellow | opponentsBall | C, F | options=leave,putBack
the partner plays an opponent's ball | yellow | black>red | opponentsChoose | red yellow | opponentsBall | C, F
brown struck by the player of pink | green | pink>brown | opponentsChoose | green brown | opponentsBall | C, F | opening=no
the ball due struck by an opponent | yellow | red>blue | opponentsChoose | blue black | opponentsBall | C, F
struck by the partner, then the opponents played on | yellow | black>blue red>red | stands | black | opponentsPlayedOn | C
partners swapped twice, the opponents between | yellow | black>blue red>red blue>black | replaceAndReplay | black | partnersSwapped | C | undone=1
partners swapped and the side plays on | yellow | black>blue blue>black | opponentsChoose | red yellow | sidePlayedOn | C | undone=2
the partner ball, then the opponents by its order | yellow | blue>black yellow>yellow | stands | blue | opponentsPlayedOn | C
the partner ball, then the opponents by the old order | yellow | blue>black red>red | stands | black | opponentsPlayedOn | C
the opponents play on, but with partners swapped | yellow | blue>black red>yellow | replaceAndReplay | yellow | partnersSwapped | C | undone=1
the partner ball, and the partner plays on | yellow | blue>black black>blue | opponentsChoose | red yellow | sidePlayedOn | C
out of turn, then the other side | yellow | red>red blue>blue | stands | red | opponentsPlayedOn | C
an opponent's ball, then its owners played on | yellow | blue>red red>red | stands | black | opponentsPlayedOn | C
an opponent's ball, answered with an opponent's ball | yellow | blue>red red>blue | opponentsChoose | blue black | opponentsBall | C | undone=1
an opponent's ball, and the side plays on | yellow | blue>red black>black | opponentsChoose | red yellow | sidePlayedOn | C
the first stroke struck by the partner | – | black>blue | replaceAndReplay | blue | opening | C
the same, then followed correctly | – | black>blue red>red | replaceAndReplay | blue | opening | C | undone=2
the fourth ball wrong | – | blue>blue red>red black>black yellow>red | replaceAndReplay | yellow | opening | R 5.2 | undone=1
an opponent's ball among the first four | – | blue>blue red>black | replaceAndReplay | red | opening | C | undone=1
all four balls by the other sides | – | yellow>blue blue>red red>black black>yellow | stands | blue | openingExchanged | R 5.1
`);
