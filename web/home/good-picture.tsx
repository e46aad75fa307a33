import style from './home.module.css';

/** How to take a picture that can be judged, and the cautions. */
export const GoodPicture = ({ open }: { open: boolean }) => (
  <section className={style.section}>
    <details open={open} className={style.advice}>
      <summary>
        <h2>A picture that can be judged</h2>
      </summary>
      <ol className={style.advicePoints}>
        <li>
          <b>Stand high.</b> A terrace or balcony, five metres up or more. Twice the height halves the doubt.
        </li>
        <li>
          <b>Stand near the end of the halfway line</b> and look along it: sideways the picture is sharpest,
          and bumps in the lawn do least.
        </li>
        <li>
          <b>Get all four corners in,</b> or five known points: hoops, the peg, the boundary marks.
        </li>
        <li>
          <b>Do not zoom with two fingers.</b> Use the whole picture, held level, lens wiped.
        </li>
        <li>
          <b>Leave the balls alone</b> until the call is made.
        </li>
      </ol>
      <p className={style.caution}>
        Only stand where it is safe: behind a railing, never on a ladder, chair or wall. Ask people before you
        photograph them, with extra care for children, and delete pictures that are no longer needed. The
        reading helps whoever decides: the referee in charge and the rules and local conditions in force
        decide, and may always test on the lawn.
      </p>
    </details>
  </section>
);
