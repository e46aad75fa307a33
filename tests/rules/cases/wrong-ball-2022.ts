import { rowsOf } from './notation.ts';

// Columns: what it shows | ball last played rightly | strokes since, player>ball | outcome | balls that may be played next | ground |
// source | more. Sources: I "Resolving wrong ball plays", croquet.org.uk. J players' discussion of rule 10, r/croquet, May 2022.
// D golf croquet outline, epsom-remuera. N the text is not to hand, so a referee is asked.

/** Singles: a player is named by either ball of the side. */
export const SINGLES_2022 = rowsOf(`
the ball due | blue | red>red | stands | black | right | D
the first ball of all | – | blue>blue | stands | red | right | D
the ball due, the player named by the other ball | blue | yellow>red | stands | black | right | D
a whole round | – | blue>blue red>red black>black yellow>yellow | stands | blue | right | D
nothing played yet | brown | – | stands | white | right | D
the partner ball, side of red | blue | red>yellow | opponentsChoose | red black | partnerBall | I 10.5, J | options=replaceAndReplay,ballSwap
the partner ball, the player named by it | blue | yellow>yellow | opponentsChoose | red black | partnerBall | I 10.5, J
black for blue | yellow | blue>black | opponentsChoose | blue red | partnerBall | J: red plays after a ball swap
blue for black | red | blue>blue | opponentsChoose | black yellow | partnerBall | I 10.5
brown for green | white | green>brown | opponentsChoose | green pink | partnerBall | I 10.5
the partner ball at the start | – | blue>black | opponentsChoose | blue red | partnerBall | I 10.5
an opponent's ball, the one due after | yellow | blue>red | replaceAndReplay | blue | opponentsBall | I 10.5, J | undone=1
an opponent's ball, the one played last | yellow | blue>yellow | replaceAndReplay | blue | opponentsBall | I 10.5, J
brown for pink | green | pink>brown | replaceAndReplay | pink | opponentsBall | I 10.5
green for pink | green | white>green | replaceAndReplay | pink | opponentsBall | I 10.5
out of turn with its own ball | yellow | red>red | annulled | blue | notEntitled | I 10.3, J | undone=1
out of turn with the ball just played | yellow | red>yellow | annulled | blue | notEntitled | I 10.3
the same side again | red | yellow>yellow | annulled | black | notEntitled | I 10.3
the same ball again | red | red>red | annulled | black | notEntitled | I 10.3
out of turn with an opponents' ball: 10.3 comes first | yellow | red>black | annulled | blue | notEntitled | I 10.3, J
out of turn with the very ball that is due | yellow | red>blue | annulled | blue | notEntitled | I 10.3, J
the other side begins | – | red>red | annulled | blue | notEntitled | I 10.3
the other side begins with blue | – | red>blue | annulled | blue | notEntitled | I 10.3
the partner ball, then the ball that follows it | yellow | blue>black yellow>yellow | stands | blue | earlierErrorStands | J
the partner ball, then the ball that would have been due | yellow | blue>black red>red | opponentsChoose | yellow blue | partnerBall | J: yellow was due after black | undone=1
out of turn, then the ball that follows it | yellow | red>red black>black | stands | yellow | earlierErrorStands | J
out of turn, then the ball that would have been due | yellow | red>red blue>blue | opponentsChoose | black yellow | partnerBall | J by the same order
the partner ball, and the side plays again | yellow | blue>black blue>blue | annulled | yellow | notEntitled | I 10.3
two errors that stand, then a right ball | yellow | blue>black red>red black>black | stands | yellow | earlierErrorStands | J
an opponent's ball, then the other side in its turn | yellow | blue>red red>red | stands | black | earlierErrorStands | I 10.2: stands once the next stroke is played
the same with second colours | green | pink>brown brown>brown | stands | white | earlierErrorStands | I 10.2
an opponent's ball, then right, then a partner ball | yellow | blue>red red>red blue>blue | opponentsChoose | black yellow | partnerBall | I 10.5
an opponent's ball, then the other side's other ball | yellow | blue>red red>yellow | referee | – | orderUnclear | N 10.6–10.7
an opponent's ball, then the same side again | yellow | blue>red blue>blue | referee | – | orderUnclear | N 10.6–10.7
exchanged colours from the start | – | red>blue blue>red | referee | – | exchangedColours | N 10.4
exchanged colours for a whole round | – | red>blue blue>red red>black blue>yellow | referee | – | exchangedColours | N 10.4
`);

/** Doubles: a player is named by the ball that is theirs. */
export const DOUBLES_2022 = rowsOf(`
the ball due by its owner | blue | red>red | stands | black | right | D
a whole round | – | green>green pink>pink brown>brown white>white | stands | green | right | D
the ball due by its owner's partner | blue | yellow>red | replaceAndReplay | red | partnerStruck | I 10.5, J | undone=1
blue struck by the player of black | yellow | black>blue | replaceAndReplay | blue | partnerStruck | J
blue struck by the player of black at the start | – | black>blue | replaceAndReplay | blue | partnerStruck | I 10.5
the partner plays its own ball | blue | yellow>yellow | opponentsChoose | red black | partnerBall | I 10.5 | options=replaceAndReplay,ballSwap
the striker plays the partner's ball | blue | red>yellow | opponentsChoose | red black | partnerBall | J
the striker plays the partner's ball at the start | – | blue>black | opponentsChoose | blue red | partnerBall | J
the partner plays its own ball at the start | – | black>black | opponentsChoose | blue red | partnerBall | I 10.5
the striker plays an opponent's ball | green | pink>brown | replaceAndReplay | pink | opponentsBall | I 10.5, J
the striker plays the opponents' ball just played | green | pink>green | replaceAndReplay | pink | opponentsBall | I 10.5
the partner plays an opponent's ball | green | white>brown | replaceAndReplay | pink | opponentsBall | I 10.5
the partner plays the opponents' ball just played | green | white>green | replaceAndReplay | pink | opponentsBall | I 10.5
out of turn with its own ball | yellow | red>red | annulled | blue | notEntitled | I 10.3, J
out of turn with the ball just played | yellow | yellow>yellow | annulled | blue | notEntitled | I 10.3
out of turn with the partner's ball | yellow | red>yellow | annulled | blue | notEntitled | I 10.3
out of turn with the ball that is due | yellow | red>blue | annulled | blue | notEntitled | I 10.3
out of turn with the opponents' other ball | yellow | yellow>black | annulled | blue | notEntitled | I 10.3
the same ball again | red | red>red | annulled | black | notEntitled | I 10.3
the other side begins | – | red>red | annulled | blue | notEntitled | I 10.3
the other side begins with blue | – | yellow>blue | annulled | blue | notEntitled | I 10.3
struck by the partner, then a right ball | blue | yellow>red black>black | stands | yellow | earlierErrorStands | I 10.2
struck by the partner, then again by a partner | blue | yellow>red blue>black | replaceAndReplay | black | partnerStruck | I 10.5
the partner ball, then the ball that follows it | yellow | blue>black yellow>yellow | stands | blue | earlierErrorStands | J
the partner ball, then the ball that would have been due | yellow | blue>black red>red | opponentsChoose | yellow blue | partnerBall | J: yellow was due after black
the partner ball, then the right ball struck by the partner | yellow | blue>black red>yellow | replaceAndReplay | yellow | partnerStruck | I 10.5
out of turn, then the ball that follows it | yellow | red>red black>black | stands | yellow | earlierErrorStands | J
an opponent's ball, then the other side in its turn | green | pink>brown brown>brown | stands | white | earlierErrorStands | I 10.2
an opponent's ball, then the other side's other ball | green | pink>brown green>green | referee | – | orderUnclear | N 10.6–10.7
an opponent's ball, then the right ball by the partner | green | pink>brown green>brown | referee | – | orderUnclear | N 10.6–10.7
an opponent's ball, then the same side again | green | pink>brown white>white | referee | – | orderUnclear | N 10.6–10.7
exchanged colours from the start | – | red>blue blue>red | referee | – | exchangedColours | N 10.4
exchanged colours in the middle of a game | white | pink>green brown>pink | referee | – | exchangedColours | N 10.4
`);
