/** What a job is doing, for whoever waits. */
export const JOB_STEPS = ['solve', 'trace', 'find', 'locate'] as const;
/** One step of a job. */
export type JobStep = (typeof JOB_STEPS)[number];
/** Told at the start of each step, with a sentence for people. */
export type Progress = (step: JobStep, message: string) => void;
