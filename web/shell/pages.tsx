import { lazy, Suspense } from 'react';
import { Link, Route, Switch } from 'wouter';
import { BallsPage } from '../balls/balls-page.tsx';
import { CallPage } from '../call/call-page.tsx';
import { HomePage } from '../home/home-page.tsx';
import { MarksPage } from '../marking/marks-page.tsx';
import { PhotoPage } from '../marking/photo-page.tsx';
import { AgainPage } from '../reading/again-page.tsx';
import { Message } from './message.tsx';

const ReadingsPage = lazy(() =>
  import('../readings/readings-page.tsx').then((m) => ({ default: m.ReadingsPage })),
);
const GameRoutes = lazy(() => import('../games/game-routes.tsx').then((m) => ({ default: m.GameRoutes })));
const CourtRoutes = lazy(() => import('../court/court-routes.tsx').then((m) => ({ default: m.CourtRoutes })));
const SettingsPage = lazy(() =>
  import('../settings/settings-page.tsx').then((m) => ({ default: m.SettingsPage })),
);

/** A part of the page that is still being fetched. */
const Fetching = () => <Message title="One moment" />;

/** Which screen belongs to which address. The way from photo to call is always at hand, the rest is fetched when asked for. */
export const Pages = () => (
  <Suspense fallback={<Fetching />}>
    <Switch>
      <Route path="/" component={HomePage} />
      <Route path="/photo/:draft">{({ draft }) => <PhotoPage id={draft} />}</Route>
      <Route path="/marks/:draft">{({ draft }) => <MarksPage id={draft} />}</Route>
      <Route path="/balls/:reading">{({ reading }) => <BallsPage id={reading} />}</Route>
      <Route path="/call/:reading">{({ reading }) => <CallPage id={reading} />}</Route>
      <Route path="/again/:reading/:step">
        {({ reading, step }) => <AgainPage id={reading} step={step} />}
      </Route>
      <Route path="/readings" component={ReadingsPage} />
      <Route path="/games/*?" component={GameRoutes} />
      <Route path="/court/*?" component={CourtRoutes} />
      <Route path="/settings" component={SettingsPage} />
      <Route>
        <Message title="There is nothing at this address">
          <p>The link may be old, or what it led to was deleted.</p>
          <Link href="/">To the start</Link>
        </Message>
      </Route>
    </Switch>
  </Suspense>
);
