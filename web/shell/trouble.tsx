import { Button } from '@mantine/core';
import { Component, type ReactNode } from 'react';
import style from './shell.module.css';

/** What is shown when a part of the page fails: a sentence and a way on. Photo and marks are on the disk by then. */
export class Trouble extends Component<{ children: ReactNode }, { failed: boolean }> {
  override state = { failed: false };
  static getDerivedStateFromError() {
    return { failed: true };
  }
  override render() {
    if (!this.state.failed) return this.props.children;
    return (
      <main className={style.message}>
        <h1>This page stumbled</h1>
        <p>Your photo and marks are kept. Load the page again to go on where you were.</p>
        <Button onClick={() => window.location.reload()}>Load the page again</Button>
      </main>
    );
  }
}
