import { Route, Switch } from 'wouter';
import { CheckPage } from './check-page.tsx';
import { CourtPage } from './court-page.tsx';
import { SightingPage } from './sighting-page.tsx';
import { StandPage } from './stand-page.tsx';
import { TogetherPage } from './together-page.tsx';

/** All screens about the line and the court: fetched together when one is first asked for. */
export const CourtRoutes = () => (
  <Switch>
    <Route path="/court" component={CourtPage} />
    <Route path="/court/stand" component={StandPage} />
    <Route path="/court/together" component={TogetherPage} />
    <Route path="/court/sighting/:id">{({ id }) => <SightingPage id={id} />}</Route>
    <Route path="/court/check/:id">{({ id }) => <CheckPage id={id} />}</Route>
  </Switch>
);
