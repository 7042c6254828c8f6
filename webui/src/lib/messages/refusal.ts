/** The words of forms, which load with the pages that have one. */
export { refusalWords as m } from './en-refusal';
