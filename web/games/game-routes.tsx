import { Route, Switch } from 'wouter';
import { GamePage } from './game-page.tsx';
import { GamesPage } from './games-page.tsx';
import { NewGamePage } from './new-game-page.tsx';
import { PutBackPage } from './put-back-page.tsx';
import { TurnPage } from './turn-page.tsx';
import { WrongBallPage } from './wrong-ball-page.tsx';

/** All screens of the games: fetched together when one is first asked for. */
export const GameRoutes = () => (
  <Switch>
    <Route path="/games" component={GamesPage} />
    <Route path="/games/new" component={NewGamePage} />
    <Route path="/games/wrong-ball" component={WrongBallPage} />
    <Route path="/games/:id">{({ id }) => <GamePage id={id} />}</Route>
    <Route path="/games/:id/turn">{({ id }) => <TurnPage id={id} />}</Route>
    <Route path="/games/:id/putback">{({ id }) => <PutBackPage id={id} />}</Route>
  </Switch>
);
